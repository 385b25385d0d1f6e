using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// How much the repeating spectrum looks like a contact's, and how likely a healthy, phase-cut or rubbing machine would look as much like it.
/// </summary>
/// <remarks>
/// A phase-cut supply's force has kinks, whose orders fall with the third power; friction turns about in a step, rounded by the slide in which it builds up;
/// a contact's orders stay level far up. What the tray's modes do to single orders is unknown, so orders are averaged as logarithms over bands.
/// The weights are a logistic regression's: the logarithm of the likelihood ratio between contact and all else, fitted on the machine model.
/// </remarks>
internal static class SpectrumEvidence
{
    internal const int MostBands = 6;
    private const double HighestShare = 0.45;
    private const int FewestBands = 4;
    private const double LeastLevel = -6;

    /// <summary>Edges of the bands in Hz.</summary>
    private static ReadOnlySpan<double> Edges => [130, 250, 400, 560, 720, 1000, 1440.5];

    /// <summary>Gives how many bands a rate in Hz lets through; 0 where they are too few to tell.</summary>
    public static int Bands(double rateHz)
    {
        var bands = 0;
        while (bands < MostBands && Edges[bands + 1] <= HighestShare * rateHz + 1)
        {
            bands++;
        }

        return bands < FewestBands ? 0 : bands;
    }

    /// <summary>Gives the common logarithm of the probability of a false alarm.</summary>
    public static double LogFalseAlarm(DisplacementPath path, IWindowHarmonics fit, double rateHz)
    {
        Span<double> levels = stackalloc double[MostBands];
        var bands = Bands(rateHz);
        var aboveNoise = Levels(path, fit, rateHz, levels[..bands]);
        var weights = SpectrumWeights.Of(bands, fit.Frequency * rateHz > SpectrumWeights.FastDriveHz);
        var ratio = weights[0];
        for (var band = 0; band < bands; band++)
        {
            ratio += weights[band + 1] * levels[band];
        }

        // Noise, or one spike that the fit spread over all orders, is level far up as well: the upper bands must stand above it.
        return Math.Max(aboveNoise, LineSignificance.LogNormalTail((ratio - weights[bands + 1]) / weights[bands + 2]));
    }

    /// <summary>Sets the mean logarithm of the amplitude of each band's orders over that of the fundamental; gives the logarithm of the probability that noise makes the upper half of the bands.</summary>
    private static double Levels(DisplacementPath path, IWindowHarmonics fit, double rateHz, Span<double> levels)
    {
        var first = path.LineCosine[1] * path.LineCosine[1] + path.LineSine[1] * path.LineSine[1];
        var floor = Math.Max(2 * fit.ResidualDeviation * fit.ResidualDeviation * fit.CoefficientShare, 1e-12 * first);
        var hertz = fit.Frequency * rateHz;
        var (upper, lines) = (0.0, 0);
        for (var band = 0; band < levels.Length; band++)
        {
            var low = Math.Max(2, (int)Math.Ceiling(Edges[band] / hertz));
            var high = Math.Max(low, (int)Math.Floor(Edges[band + 1] / hertz));
            (high, var product, var strongest, var second, var orders) = (Math.Min(high, fit.Orders), 1.0, 0.0, 0.0, 0);
            for (var k = low; k <= high; k++)
            {
                var power = path.LineCosine[k] * path.LineCosine[k] + path.LineSine[k] * path.LineSine[k];
                var share = (Math.Max(power - floor, 0) + floor) / first;
                product *= share;
                (upper, lines) = 2 * band >= levels.Length ? (upper + power / floor, lines + 1) : (upper, lines);
                (strongest, second) = share > strongest ? (share, strongest) : (strongest, Math.Max(second, share));
                orders++;
            }

            // The strongest order is left out, of six the two strongest: what a mode of the tray happens to raise must not speak for the band.
            var left = orders < 2 ? orders : orders < 6 ? orders - 1 : orders - 2;
            product /= orders < 2 ? 1 : orders < 6 ? strongest : strongest * second;
            levels[band] = left == 0 ? LeastLevel : Math.Max(LeastLevel, Math.Log10(product) / left / 2);
        }

        return LineSignificance.LogFProbability(upper / Math.Max(1, lines), 2.0 * lines, Math.Max(1.0, fit.Count - (2 * fit.Orders) - 2));
    }
}
