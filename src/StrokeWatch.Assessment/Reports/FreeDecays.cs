using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Puts the free decays of a capture's stops and starts together, each with its weight (GUM, weighted mean).</summary>
internal static class FreeDecays
{
    /// <summary>Gives the natural frequency in Hz and its expanded uncertainty; null where there is no decay.</summary>
    public static (double Value, double Uncertainty)? Frequency(IReadOnlyList<DecayReading> decays) =>
        Mean(decays, decay => decay.NaturalFrequencyHz, decay => decay.FrequencyUncertaintyHz, decay => decay.MagnetHzUncertainty);

    /// <summary>Gives the damping ratio and its expanded uncertainty; null where there is no decay.</summary>
    public static (double Value, double Uncertainty)? Damping(IReadOnlyList<DecayReading> decays) =>
        Mean(decays, decay => decay.DampingRatio, decay => decay.DampingUncertainty, decay => decay.MagnetDampingUncertainty);

    /// <summary>Gives natural over drive frequency and its expanded uncertainty; null where there is no decay beside a known drive.</summary>
    public static (double Value, double Uncertainty)? Tuning(IReadOnlyList<DecayReading> decays) =>
        Mean([.. decays.Where(decay => decay.DriveHz > 0)], decay => decay.TuningRatio, decay => decay.TuningUncertainty, decay => decay.MagnetHzUncertainty / decay.DriveHz);

    private static (double Value, double Uncertainty)? Mean(IReadOnlyList<DecayReading> decays, Func<DecayReading, double> value, Func<DecayReading, double> uncertainty, Func<DecayReading, double> magnet)
    {
        if (decays.Count == 0)
        {
            return null;
        }

        // A reading that states no uncertainty counts as the worst of the others, or all count alike.
        var worst = decays.Max(uncertainty);
        double sum = 0, weights = 0, shared = 0;
        foreach (var decay in decays)
        {
            var stated = Stated(decay);
            var weight = 1 / (stated * stated);
            (sum, weights, shared) = (sum + (weight * value(decay)), weights + weight, shared + (weight * magnet(decay)));
        }

        // The magnet's part is the same in every start: many of them make it no smaller.
        var own = decays.Sum(decay => Math.Pow(Stated(decay), -4) * (Math.Pow(Stated(decay), 2) - Math.Pow(magnet(decay), 2)));
        return (sum / weights, worst > 0 ? Math.Sqrt(Math.Max(0, own) + (shared * shared)) / weights : 0);

        double Stated(DecayReading decay) => uncertainty(decay) > 0 ? uncertainty(decay) : worst > 0 ? worst : 1;
    }
}
