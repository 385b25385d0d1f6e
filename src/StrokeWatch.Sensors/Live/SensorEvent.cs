namespace StrokeWatch.Sensors.Live;

/// <summary>Something that happened to a live sensor.</summary>
/// <param name="Kind">What.</param>
/// <param name="AtSeconds">When, in seconds from the first sample, estimated by the host's clock where no samples come.</param>
/// <param name="Words">What a person is told, in one line.</param>
public readonly record struct SensorEvent(SensorEventKind Kind, double AtSeconds, string Words);
