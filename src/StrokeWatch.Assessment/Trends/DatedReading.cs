namespace StrokeWatch.Assessment.Trends;

/// <summary>A reading of one feature of a machine.</summary>
/// <param name="At">When it was taken.</param>
/// <param name="Value">Its value, in the feature's unit.</param>
/// <param name="Deviation">How far such readings of a machine that does not change scatter, one standard deviation, above 0.</param>
public readonly record struct DatedReading(DateTimeOffset At, double Value, double Deviation);
