namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The free decay of the feeder after it was switched off.</summary>
/// <param name="StartSeconds">Start of the decay, in seconds from the first sample.</param>
/// <param name="NaturalFrequencyHz">Frequency of the free decay itself (damped), in Hz.</param>
/// <param name="DampingRatio">Damping ratio, 0 to 1.</param>
/// <param name="FrequencyUncertaintyHz">Expanded uncertainty (k = 2) of the frequency, in Hz.</param>
public readonly record struct DecayReading(
    double StartSeconds, double NaturalFrequencyHz, double DampingRatio, double FrequencyUncertaintyHz);
