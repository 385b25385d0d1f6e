namespace StrokeWatch.Measurement.CoastDown;

/// <summary>What the beat of a start tells.</summary>
/// <param name="StartSeconds">When the feeder was switched on, in seconds from the first sample.</param>
/// <param name="Decay">The free decay in the beat; null where it could not be told.</param>
/// <param name="Reason">Why it could not be told; null where it could.</param>
public readonly record struct StartReading(double StartSeconds, DecayReading? Decay, string? Reason);
