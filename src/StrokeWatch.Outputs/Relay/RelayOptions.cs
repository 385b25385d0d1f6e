using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Relay;

/// <summary>Which line of which chip drives the relay, and how.</summary>
public sealed record RelayOptions
{
    /// <summary>Gets the chip's number: 0 for /dev/gpiochip0.</summary>
    public required int Chip { get; init; }

    /// <summary>Gets the line's number on the chip.</summary>
    public required int Line { get; init; }

    /// <summary>Gets whether the relay is energised by a low line.</summary>
    public bool ActiveLow { get; init; }

    /// <summary>Gets the period in which the line goes off and on again while all is well; null for a steady one.</summary>
    public TimeSpan? Heartbeat { get; init; }

    /// <summary>Gets the alarms that drop the relay, from their beginning until they are over, and where they latch until they are reset.</summary>
    public IReadOnlyList<AlarmKind> Alarms { get; init; } = Usual;

    /// <summary>Gets what drops the relay where nothing is said: strike, over-stroke, and whatever keeps either from being seen or written.</summary>
    public static IReadOnlyList<AlarmKind> Usual { get; } =
        [AlarmKind.OverStroke, AlarmKind.Strike, AlarmKind.SensorLost, AlarmKind.SensorStuck, AlarmKind.Unmeasurable, AlarmKind.StoreTrouble];
}
