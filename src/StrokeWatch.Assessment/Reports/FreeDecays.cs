using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Puts the free decays of a capture's stops and starts together, each with its weight (GUM, weighted mean).</summary>
internal static class FreeDecays
{
    /// <summary>Gives the natural frequency in Hz and its expanded uncertainty; null where there is no decay.</summary>
    public static (double Value, double Uncertainty)? Frequency(IReadOnlyList<DecayReading> decays) =>
        Mean(decays, decay => decay.NaturalFrequencyHz, decay => decay.FrequencyUncertaintyHz);

    /// <summary>Gives the damping ratio and its expanded uncertainty; null where there is no decay.</summary>
    public static (double Value, double Uncertainty)? Damping(IReadOnlyList<DecayReading> decays) =>
        Mean(decays, decay => decay.DampingRatio, decay => decay.DampingUncertainty);

    /// <summary>Gives natural over drive frequency and its expanded uncertainty; null where there is no decay beside a known drive.</summary>
    public static (double Value, double Uncertainty)? Tuning(IReadOnlyList<DecayReading> decays) =>
        Mean([.. decays.Where(decay => decay.DriveHz > 0)], decay => decay.TuningRatio, decay => decay.TuningUncertainty);

    private static (double Value, double Uncertainty)? Mean(IReadOnlyList<DecayReading> decays, Func<DecayReading, double> value, Func<DecayReading, double> uncertainty)
    {
        if (decays.Count == 0)
        {
            return null;
        }

        // A reading that states no uncertainty counts as the worst of the others, or all count alike.
        var worst = decays.Max(uncertainty);
        double sum = 0, weights = 0;
        foreach (var decay in decays)
        {
            var stated = uncertainty(decay) > 0 ? uncertainty(decay) : worst > 0 ? worst : 1;
            (sum, weights) = (sum + (value(decay) / (stated * stated)), weights + (1 / (stated * stated)));
        }

        return (sum / weights, worst > 0 ? 1 / Math.Sqrt(weights) : 0);
    }
}
