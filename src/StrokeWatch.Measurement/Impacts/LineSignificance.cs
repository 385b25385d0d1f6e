using MathNet.Numerics;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// Whether what repeats stands above noise. Sources: Fisher, Proc. R. Soc. A 125 (1929) 54-59 (g); Kay, <i>Fundamentals of Statistical Signal
/// Processing II</i> (single lines, Marcum's Q); F and chi-square distributions from textbooks; all from memory.
/// </summary>
internal static class LineSignificance
{
    private const double Smallest = 1e-300;

    /// <summary>Gives the power of a line over the mean noise power that noise exceeds with a probability, the noise being known: −ln α.</summary>
    public static double KnownNoiseThreshold(double probability) => -Math.Log(probability);

    /// <summary>Gives the same with the noise taken from lines with so many degrees of freedom (two each): F₂,ᵥ.</summary>
    public static double EstimatedNoiseThreshold(double probability, double freedom) =>
        freedom / 2 * (Math.Pow(probability, -2 / freedom) - 1);

    /// <summary>Gives the power over the mean noise power that the mean of several spectra exceeds with a probability: χ²₂ₗ/2L.</summary>
    public static double AveragedThreshold(double probability, int spectra)
    {
        double low = 0, high = 1;
        while (SpecialFunctions.GammaUpperRegularized(spectra, high * spectra) > probability)
        {
            high *= 2;
        }

        for (var i = 0; i < 100; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = SpecialFunctions.GammaUpperRegularized(spectra, middle * spectra) > probability ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    /// <summary>Gives the probability that the largest of m noise lines holds at least a share g of their sum (Fisher's g).</summary>
    public static double FisherProbability(double share, int lines)
    {
        double sum = 0, choose = 1;
        for (var k = 1; k <= lines && k * share < 1; k++)
        {
            choose *= (lines - k + 1.0) / k;
            sum += (k % 2 == 1 ? 1 : -1) * choose * Math.Pow(1 - (k * share), lines - 1);
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>Gives the common logarithm of the probability that a ratio of variances exceeds a value by chance (Fisher's F).</summary>
    /// <param name="ratio">Ratio of the two mean squares.</param>
    /// <param name="freedom">Degrees of freedom of the upper one.</param>
    /// <param name="noiseFreedom">Degrees of freedom of the lower one.</param>
    public static double LogFProbability(double ratio, double freedom, double noiseFreedom) => ratio <= 0
        ? 0
        : Math.Log10(Math.Max(Smallest, SpecialFunctions.BetaRegularized(noiseFreedom / 2, freedom / 2, noiseFreedom / (noiseFreedom + (freedom * ratio)))));

    /// <summary>Gives the common logarithm of the probability that a normally spread number exceeds z standard deviations; within 3 % for z of 0 and more (Sampford's bound of Mills' ratio, from memory).</summary>
    public static double LogNormalTail(double z) => z <= 0
        ? Math.Log10(0.5)
        : (-0.5 * z * z * Math.Log10(Math.E)) + Math.Log10(2 / (z + Math.Sqrt((z * z) + (8 / Math.PI))) / Math.Sqrt(2 * Math.PI));

    /// <summary>Gives the probability of hearing a tone of a power ratio SNR = |A|²N/4σ² at a false-alarm probability: Marcum's Q₁(√(2 SNR), √(−2 ln α)).</summary>
    public static double DetectionProbability(double snr, double falseAlarm)
    {
        // Q₁ as Poisson-weighted chi-square tails: Σ e^(−snr) snrⁱ/i! · Q(i+1, −ln α).
        double sum = 0, weight = Math.Exp(-snr), half = -Math.Log(falseAlarm), term = Math.Exp(-half), tail = term;
        for (var i = 0; i < 2000; i++)
        {
            sum += weight * tail;
            weight *= snr / (i + 1);
            term *= half / (i + 1);
            tail += term;
        }

        return Math.Min(1, sum);
    }
}
