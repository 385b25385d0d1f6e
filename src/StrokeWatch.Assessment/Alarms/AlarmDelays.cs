using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Alarms;

/// <summary>How long a state must last before its alarm is raised, and be gone before it is cleared.</summary>
/// <remarks>The defaults are engineering judgement: what damages the machine is raised after two windows of half a second, what only feeds badly later.</remarks>
public sealed record AlarmDelays
{
    /// <summary>Gets the delay of over-stroke in seconds: 0 to 60, 0.9 where not given.</summary>
    public double OverStrokeAfterSeconds { get; init; } = 0.9;

    /// <summary>Gets the delay of strike in seconds: 0 to 60, 0.9 where not given.</summary>
    public double StrikeAfterSeconds { get; init; } = 0.9;

    /// <summary>Gets the delay of a stroke above or below the band in seconds: 0 to 3600, 2 where not given.</summary>
    public double BandAfterSeconds { get; init; } = 2;

    /// <summary>Gets the delay of a clipped sensor in seconds: 0 to 3600, 0.9 where not given.</summary>
    public double ClippedAfterSeconds { get; init; } = 0.9;

    /// <summary>Gets the delay of a lost sensor in seconds: 0.2 to 600, 2 where not given.</summary>
    public double LostAfterSeconds { get; init; } = 2;

    /// <summary>Gets the delay of a stroke that cannot be measured in seconds: 0 to 3600, 5 where not given.</summary>
    public double UnmeasurableAfterSeconds { get; init; } = 5;

    /// <summary>Gets how long a cause must be gone before its alarm is cleared, in seconds: 0 to 3600, 3 where not given. A sensor that is back, and a stroke that can be measured again, clear at once.</summary>
    public double ClearAfterSeconds { get; init; } = 3;

    /// <summary>Gets how far the stroke must come back past a bound before it counts as back, 0 to 1 mm; null takes half a per cent of the top of the band. Three standard deviations of the reading are the least in any case.</summary>
    public Length? Hysteresis { get; init; }
}
