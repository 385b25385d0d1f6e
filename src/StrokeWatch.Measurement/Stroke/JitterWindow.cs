namespace StrokeWatch.Measurement.Stroke;

/// <summary>What one window shows of unsteady sampling: how its squared residual goes with its squared slope.</summary>
/// <remarks>
/// A sample taken δ late differs by slope times δ, so that the residual's variance is σ² + slope² σₜ². Jitter is fresh with every sample; where neighbours share
/// it, the drive's own phase wanders, and that part (from products of neighbours) is taken off.
/// </remarks>
/// <param name="Variance">σₜ² in s², with its random error of either sign.</param>
/// <param name="Deviation">Standard deviation of that in s², whatever the residual's distribution (White's formula).</param>
/// <param name="Shared">The part that neighbouring samples share, in s².</param>
/// <param name="Other">What else of the residual's variance goes with the phase, over what jitter explains; above one half it is not jitter alone.</param>
/// <param name="Weight">Σ (slope² − mean)², by which windows are averaged.</param>
internal readonly record struct JitterWindow(double Variance, double Deviation, double Shared, double Other, double Weight)
{
    private const int PhaseOrders = 4;

    /// <summary>Looks at a window.</summary>
    /// <param name="line">The acceleration along the line of action at each sample.</param>
    /// <param name="places">The places of the samples; empty where they are evenly spaced.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="noise">Standard deviation of one of the line's coefficients by noise, at most.</param>
    /// <param name="omega">The drive's true angular frequency in rad/s.</param>
    /// <param name="room">Room to work in, for as many samples.</param>
    public static JitterWindow Of(
        ReadOnlySpan<double> line, ReadOnlySpan<double> places, IWindowHarmonics fit, DisplacementPath path, double noise, double omega,
        JitterRoom room)
    {
        var count = line.Length;
        Span<double> slopes = room.Slopes(count), residuals = room.Residuals(count), cos = room.Cos(count), sin = room.Sin(count);

        // An order that is noise alone would add its slope to every square.
        Span<double> c = stackalloc double[fit.Orders + 1];
        Span<double> s = stackalloc double[fit.Orders + 1];
        c.Clear();
        s.Clear();
        var highest = 1;
        for (var k = 1; k <= fit.Orders; k++)
        {
            if (k == 1 || path.StandsOut(k, noise))
            {
                (c[k], s[k], highest) = (path.LineCosine[k], path.LineSine[k], k);
            }
        }

        HarmonicRun.Phases(fit.Frequency, places, cos, sin);
        HarmonicRun.TakeOff(line, path.LineCosine[..(fit.Orders + 1)], path.LineSine[..(fit.Orders + 1)], cos, sin, residuals);
        HarmonicRun.Slopes(c[..(highest + 1)], s[..(highest + 1)], omega, cos, sin, slopes);
        var (sumX, sumY, sumNext, sumBoth) = (0.0, 0.0, 0.0, 0.0);
        for (var n = 0; n < count; n++)
        {
            sumX += slopes[n] * slopes[n];
            sumY += residuals[n] * residuals[n];
            sumNext += n > 0 ? slopes[n] * slopes[n - 1] : 0;
            sumBoth += n > 0 ? residuals[n] * residuals[n - 1] : 0;
        }

        var means = new Means(sumX / count, sumY / count, sumNext / (count - 1), sumBoth / (count - 1));
        var (spread, product, spreadNext, productNext) = (0.0, 0.0, 0.0, 0.0);
        for (var n = 0; n < count; n++)
        {
            var x = slopes[n] * slopes[n] - means.Slope;
            spread += x * x;
            product += x * (residuals[n] * residuals[n] - means.Residual);
            if (n > 0)
            {
                var next = slopes[n] * slopes[n - 1] - means.NextSlope;
                spreadNext += next * next;
                productNext += next * (residuals[n] * residuals[n - 1] - means.NextResidual);
            }
        }

        var (own, shared) = (product / spread, productNext / spreadNext);
        var (deviation, other) = Left(slopes, residuals, cos, sin, means, own, shared, spread, spreadNext);

        // The fit has taken its own number of freedoms out of the residual.
        var freedom = count / Math.Max(1.0, count - 2 * fit.Orders - 1);
        return new(freedom * (own - shared), freedom * deviation, freedom * shared, other, spread);
    }

    private static (double Deviation, double Other) Left(
        ReadOnlySpan<double> slopes, ReadOnlySpan<double> residuals, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin,
        in Means means, double own, double shared, double spread, double spreadNext)
    {
        Span<double> re = stackalloc double[PhaseOrders + 1];
        Span<double> im = stackalloc double[PhaseOrders + 1];
        re.Clear();
        im.Clear();
        var count = slopes.Length;
        var (variance, varianceNext, total) = (0.0, 0.0, 0.0);
        for (var n = 0; n < count; n++)
        {
            var x = slopes[n] * slopes[n] - means.Slope;
            var left = residuals[n] * residuals[n] - means.Residual - own * x;
            variance += x * x * left * left;
            total += left * left;
            double a = cos[n], b = sin[n];
            for (var m = 1; m <= PhaseOrders; m++, (a, b) = (a * cos[n] - b * sin[n], b * cos[n] + a * sin[n]))
            {
                (re[m], im[m]) = (re[m] + left * a, im[m] + left * b);
            }

            if (n > 0)
            {
                var next = slopes[n] * slopes[n - 1] - means.NextSlope;
                var leftNext = residuals[n] * residuals[n - 1] - means.NextResidual - shared * next;
                varianceNext += next * next * leftNext * leftNext;
            }
        }

        var power = 0.0;
        for (var m = 1; m <= PhaseOrders; m++)
        {
            power += 2 * (re[m] * re[m] + im[m] * im[m]) / count;
        }

        // Without any dependence on the phase each of the two times four coefficients would still hold its share of the scatter.
        var excess = Math.Max(0, power - 2 * PhaseOrders * total / count);
        var explained = own * own * spread;
        return (Math.Sqrt(variance / (spread * spread) + varianceNext / (spreadNext * spreadNext)), explained > 0 ? excess / explained : double.PositiveInfinity);
    }

    private readonly record struct Means(double Slope, double Residual, double NextSlope, double NextResidual);
}
