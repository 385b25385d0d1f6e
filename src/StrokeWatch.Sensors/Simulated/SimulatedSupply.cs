using StrokeWatch.Machine.Magnet;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The mains and the control that feed a simulated magnet.</summary>
public sealed record SimulatedSupply
{
    /// <summary>Gets how the supply makes the magnet pull; null takes half-wave for one stroke a cycle, full-wave for two.</summary>
    public DriveKind? Kind { get; init; }

    /// <summary>Gets the firing angle in degrees, 0 without phase control.</summary>
    public double FiringDegrees { get; init; }

    /// <summary>Gets the coil's resistance over its reactance.</summary>
    public double ResistanceRatio { get; init; } = 0.1;

    /// <summary>Gets the permanent magnet's flux relative to the coil's, where there is one.</summary>
    public double BiasFlux { get; init; } = 1;

    /// <summary>Gets the voltage over time, in per cent of full, straight between points; constant before the first and after the last.</summary>
    public IReadOnlyList<(double AtSeconds, double Percent)> Voltage { get; init; } = [(0, 100)];

    /// <summary>Gets how far the true mains frequency is from nominal, in Hz.</summary>
    public double OffsetHz { get; init; }

    /// <summary>Gets the r.m.s. of the slow wandering of the mains frequency (correlation time 5 s), in Hz.</summary>
    public double WanderHz { get; init; }

    /// <summary>Gets the times in seconds between which the feeder is on; empty for always.</summary>
    public IReadOnlyList<(double From, double To)> On { get; init; } = [];
}
