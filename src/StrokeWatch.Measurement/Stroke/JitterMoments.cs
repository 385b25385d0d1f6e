using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Sums over a window of how its squared residual goes with its squared slope, several samples at a time; the neighbour of a sample is the one before it.</summary>
internal static class JitterMoments
{
    /// <summary>The multiples of the phase in which the squared residual is looked at for more than jitter explains.</summary>
    public const int PhaseOrders = 4;

    /// <summary>Gives the means of squared slope and residual, and of products with the neighbour.</summary>
    public static JitterMeans Means(ReadOnlySpan<double> slopes, ReadOnlySpan<double> residuals)
    {
        var (x, y) = (slopes[0] * slopes[0], residuals[0] * residuals[0]);
        double nextX = 0, nextY = 0;
        Vector<double> wideX = default, wideY = default, wideNextX = default, wideNextY = default;
        var (n, lanes) = (1, Vector<double>.Count);
        for (; n <= slopes.Length - lanes; n += lanes)
        {
            var (s, r) = (new Vector<double>(slopes[n..]), new Vector<double>(residuals[n..]));
            wideX += s * s;
            wideY += r * r;
            wideNextX += s * new Vector<double>(slopes[(n - 1)..]);
            wideNextY += r * new Vector<double>(residuals[(n - 1)..]);
        }

        for (; n < slopes.Length; n++)
        {
            x += slopes[n] * slopes[n];
            y += residuals[n] * residuals[n];
            nextX += slopes[n] * slopes[n - 1];
            nextY += residuals[n] * residuals[n - 1];
        }

        double count = slopes.Length;
        return new(
            (x + Vector.Sum(wideX)) / count, (y + Vector.Sum(wideY)) / count,
            (nextX + Vector.Sum(wideNextX)) / (count - 1), (nextY + Vector.Sum(wideNextY)) / (count - 1));
    }

    /// <summary>Gives Σ x², Σ xy of the squares about their means, and the same of the products with the neighbour.</summary>
    public static (double Spread, double Product, double NextSpread, double NextProduct) Products(
        ReadOnlySpan<double> slopes, ReadOnlySpan<double> residuals, in JitterMeans means)
    {
        var x = slopes[0] * slopes[0] - means.Slope;
        var (spread, product) = (x * x, x * (residuals[0] * residuals[0] - means.Residual));
        double nextSpread = 0, nextProduct = 0;
        Vector<double> wideSpread = default, wideProduct = default, wideNextSpread = default, wideNextProduct = default;
        var (meanX, meanY, meanNextX, meanNextY) = means.Wide;
        var (n, lanes) = (1, Vector<double>.Count);
        for (; n <= slopes.Length - lanes; n += lanes)
        {
            var (s, r) = (new Vector<double>(slopes[n..]), new Vector<double>(residuals[n..]));
            var (wideX, wideNext) = (s * s - meanX, s * new Vector<double>(slopes[(n - 1)..]) - meanNextX);
            wideSpread += wideX * wideX;
            wideProduct += wideX * (r * r - meanY);
            wideNextSpread += wideNext * wideNext;
            wideNextProduct += wideNext * (r * new Vector<double>(residuals[(n - 1)..]) - meanNextY);
        }

        for (; n < slopes.Length; n++)
        {
            (x, var next) = (slopes[n] * slopes[n] - means.Slope, slopes[n] * slopes[n - 1] - means.NextSlope);
            spread += x * x;
            product += x * (residuals[n] * residuals[n] - means.Residual);
            nextSpread += next * next;
            nextProduct += next * (residuals[n] * residuals[n - 1] - means.NextResidual);
        }

        return (spread + Vector.Sum(wideSpread), product + Vector.Sum(wideProduct), nextSpread + Vector.Sum(wideNextSpread), nextProduct + Vector.Sum(wideNextProduct));
    }

    /// <summary>Gives what the regression of squared residual on squared slope leaves over, for its own and for its neighbour's part.</summary>
    /// <param name="slopes">The slope at each sample.</param>
    /// <param name="residuals">The residual at each sample.</param>
    /// <param name="cos">The cosine of the phase at each sample.</param>
    /// <param name="sin">Its sine.</param>
    /// <param name="means">The means.</param>
    /// <param name="own">The regression's slope.</param>
    /// <param name="shared">The slope of the products with the neighbour.</param>
    public static JitterLeft Left(
        ReadOnlySpan<double> slopes, ReadOnlySpan<double> residuals, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin,
        in JitterMeans means, double own, double shared)
    {
        Span<Vector<double>> wideRe = stackalloc Vector<double>[PhaseOrders];
        Span<Vector<double>> wideIm = stackalloc Vector<double>[PhaseOrders];
        Span<double> re = stackalloc double[PhaseOrders];
        Span<double> im = stackalloc double[PhaseOrders];
        wideRe.Clear();
        wideIm.Clear();
        re.Clear();
        im.Clear();
        Vector<double> wideVariance = default, wideNextVariance = default, wideTotal = default;
        var (meanX, meanY, meanNextX, meanNextY) = means.Wide;
        var (n, lanes) = (1, Vector<double>.Count);
        for (; n <= slopes.Length - lanes; n += lanes)
        {
            var (s, r, c, t) = (new Vector<double>(slopes[n..]), new Vector<double>(residuals[n..]), new Vector<double>(cos[n..]), new Vector<double>(sin[n..]));
            var x = s * s - meanX;
            var left = r * r - meanY - x * own;
            wideVariance += x * x * left * left;
            wideTotal += left * left;
            var (a, b) = (c, t);
            for (var m = 0; m < PhaseOrders; m++, (a, b) = (a * c - b * t, b * c + a * t))
            {
                wideRe[m] += left * a;
                wideIm[m] += left * b;
            }

            var next = s * new Vector<double>(slopes[(n - 1)..]) - meanNextX;
            var leftNext = r * new Vector<double>(residuals[(n - 1)..]) - meanNextY - next * shared;
            wideNextVariance += next * next * leftNext * leftNext;
        }

        var (variance, nextVariance, total) = (Vector.Sum(wideVariance), Vector.Sum(wideNextVariance), Vector.Sum(wideTotal));
        for (var i = 0; i < slopes.Length; i = i == 0 ? n : i + 1)
        {
            var x = slopes[i] * slopes[i] - means.Slope;
            var left = residuals[i] * residuals[i] - means.Residual - own * x;
            variance += x * x * left * left;
            total += left * left;
            double a = cos[i], b = sin[i];
            for (var m = 0; m < PhaseOrders; m++, (a, b) = (a * cos[i] - b * sin[i], b * cos[i] + a * sin[i]))
            {
                re[m] += left * a;
                im[m] += left * b;
            }

            if (i > 0)
            {
                var next = slopes[i] * slopes[i - 1] - means.NextSlope;
                var leftNext = residuals[i] * residuals[i - 1] - means.NextResidual - shared * next;
                nextVariance += next * next * leftNext * leftNext;
            }
        }

        var power = 0.0;
        for (var m = 0; m < PhaseOrders; m++)
        {
            var (c, t) = (re[m] + Vector.Sum(wideRe[m]), im[m] + Vector.Sum(wideIm[m]));
            power += 2 * (c * c + t * t) / slopes.Length;
        }

        return new(variance, nextVariance, total, power);
    }
}
