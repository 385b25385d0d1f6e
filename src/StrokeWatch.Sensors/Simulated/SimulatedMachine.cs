using StrokeWatch.Machine.Dynamics;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The moving parts of a simulated feeder, beside what its description says of masses, springs and gap.</summary>
public sealed record SimulatedMachine
{
    /// <summary>Gets the natural frequency of tray against body, undamped and without load, in Hz; null takes the springs, or <see cref="TuningRatio"/>.</summary>
    public double? NaturalFrequencyHz { get; init; }

    /// <summary>Gets natural frequency over drive frequency, where neither it nor the springs are given.</summary>
    public double TuningRatio { get; init; } = 1.05;

    /// <summary>Gets the damping ratio of tray against body.</summary>
    public double DampingRatio { get; init; } = 0.02;

    /// <summary>Gets the frequency of the whole feeder on its mounts, in Hz.</summary>
    public double MountHz { get; init; } = 4.5;

    /// <summary>Gets the damping ratio of the mounts.</summary>
    public double MountDampingRatio { get; init; } = 0.1;

    /// <summary>Gets the line of action above the tray's x axis, in degrees, where the feeder's description does not say it.</summary>
    public double LineAngleDegrees { get; init; } = 20;

    /// <summary>Gets the motion across the line of action relative to that along it, a quarter cycle late: the tray's pitching.</summary>
    public double EllipseRatio { get; init; } = 0.02;

    /// <summary>Gets the length in seconds of a blow of armature on core.</summary>
    public double ContactSeconds { get; init; } = 0.5e-3;

    /// <summary>Gets the restitution of such a blow at 0.1 m/s.</summary>
    public double Restitution { get; init; } = 0.5;

    /// <summary>Gets the flexible modes of the tray.</summary>
    public IReadOnlyList<TrayMode> Modes { get; init; } =
    [
        new(380, 0.02, 0.4, 75, 0.1),
        new(760, 0.015, 0.3, 100, -0.3),
        new(1400, 0.015, 0.2, 60, 0.2),
    ];
}
