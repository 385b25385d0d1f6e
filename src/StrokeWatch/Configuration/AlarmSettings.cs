using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>How long a state must last before its alarm is raised or cleared: the table [alarms] of the daemon's configuration; all of it is optional.</summary>
internal sealed record AlarmSettings
{
    /// <summary>Gets the delay of over-stroke in seconds: 0 to 60, 0.5 where not given.</summary>
    public double OverStrokeAfterSeconds { get; init; } = 0.5;

    /// <summary>Gets the delay of strike in seconds: 0 to 60, 0.5 where not given.</summary>
    public double StrikeAfterSeconds { get; init; } = 0.5;

    /// <summary>Gets the delay of a stroke above or below the band in seconds: 0 to 3600, 5 where not given.</summary>
    public double BandAfterSeconds { get; init; } = 5;

    /// <summary>Gets the delay of a clipped sensor in seconds: 0 to 3600, 2 where not given.</summary>
    public double ClippedAfterSeconds { get; init; } = 2;

    /// <summary>Gets the delay of a lost sensor in seconds: 0.2 to 600, 2 where not given.</summary>
    public double LostAfterSeconds { get; init; } = 2;

    /// <summary>Gets the delay of a stroke that cannot be measured in seconds: 0 to 3600, 10 where not given.</summary>
    public double UnmeasurableAfterSeconds { get; init; } = 10;

    /// <summary>Gets how long any alarm's cause must be gone before it is cleared, in seconds: 0 to 3600, 5 where not given.</summary>
    public double ClearAfterSeconds { get; init; } = 5;

    /// <summary>Gets how far the stroke must come back past a bound before it counts as back: 0 to 1 mm, 0.01 mm where not given.</summary>
    public Length Hysteresis { get; init; } = Length.FromMillimetres(0.01);
}
