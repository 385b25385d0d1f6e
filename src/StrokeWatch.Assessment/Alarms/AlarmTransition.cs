using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Alarms;

/// <summary>An alarm that was raised or cleared.</summary>
/// <param name="Kind">The alarm.</param>
/// <param name="Raised">True where it was raised, false where it was cleared.</param>
/// <param name="AtSeconds">When, in seconds from the first sample.</param>
/// <param name="StrokeMetres">The stroke at that time in metres, if it was measured.</param>
/// <param name="Words">What an operator is told, in a sentence.</param>
public readonly record struct AlarmTransition(AlarmKind Kind, bool Raised, double AtSeconds, double? StrokeMetres, string Words)
{
    /// <summary>Gets the place of the sensor, or of the first sensor of the device, that the alarm is about; null where it is about the feeder, or there is one sensor.</summary>
    public SensorPlace? Place { get; init; }
}
