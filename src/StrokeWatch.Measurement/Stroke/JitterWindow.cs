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
        var means = JitterMoments.Means(slopes, residuals);
        var (spread, product, spreadNext, productNext) = JitterMoments.Products(slopes, residuals, means);
        var (own, shared) = (product / spread, productNext / spreadNext);
        var left = JitterMoments.Left(slopes, residuals, cos, sin, means, own, shared);

        // Without any dependence on the phase each of the two times four coefficients would still hold its share of the scatter.
        var excess = Math.Max(0, left.PhasePower - 2 * JitterMoments.PhaseOrders * left.Total / count);
        var explained = own * own * spread;

        // The fit has taken its own number of freedoms out of the residual.
        var freedom = count / Math.Max(1.0, count - 2 * fit.Orders - 1);
        var deviation = Math.Sqrt(left.Variance / (spread * spread) + left.NextVariance / (spreadNext * spreadNext));
        return new(freedom * (own - shared), freedom * deviation, freedom * shared, explained > 0 ? excess / explained : double.PositiveInfinity, spread);
    }
}
