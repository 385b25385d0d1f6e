using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>Everything that a simulated run needs; every part has a default, so that an empty scenario is a healthy 50 Hz feeder.</summary>
public sealed record FeederScenario
{
    /// <summary>Gets the name, for people.</summary>
    public string Name { get; init; } = "Simulated feeder";

    /// <summary>Gets the feeder: drive, band, and what else is known of springs, masses and gap.</summary>
    public FeederDescription Feeder { get; init; } = new()
    {
        Name = "Simulated feeder",
        Drive = new(50, 1, false),
        Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
    };

    /// <summary>Gets when the first sample is said to be taken; null for a capture without a date.</summary>
    public DateTimeOffset? Recorded { get; init; }

    /// <summary>Gets the seed of every random part.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Gets the length of the run in seconds of true time; infinite for a run without end.</summary>
    public double DurationSeconds { get; init; } = 4;

    /// <summary>Gets whether a feeder that is on at time zero has run long before; false starts it at that instant.</summary>
    public bool WarmStart { get; init; } = true;

    /// <summary>Gets the stroke, peak to peak along the line of action, that the magnet is scaled to make at full voltage with the load on; null takes the middle of the band.</summary>
    public Length? Stroke { get; init; }

    /// <summary>Gets the magnet's peak pull in N at full voltage, instead of a stroke.</summary>
    public double? PeakPull { get; init; }

    /// <summary>Gets the moving parts.</summary>
    public SimulatedMachine Machine { get; init; } = new();

    /// <summary>Gets the supply.</summary>
    public SimulatedSupply Supply { get; init; } = new();

    /// <summary>Gets the channel that takes the supply's voltage with the samples; null for none.</summary>
    public SimulatedSupplyChannel? SupplyChannel { get; init; }

    /// <summary>Gets the strikes laid over the motion; null for none but those that the closing gap makes.</summary>
    public SimulatedStrike? Strike { get; init; }

    /// <summary>Gets the material on the tray.</summary>
    public SimulatedMaterial Material { get; init; } = new();

    /// <summary>Gets the tones that come through the floor from other machines.</summary>
    public IReadOnlyList<NeighbourTone> Neighbours { get; init; } = [];

    /// <summary>Gets where the accelerometers sit, where there are several of the same kind; empty for one in the middle of the tray.</summary>
    public IReadOnlyList<SimulatedPlace> Sensors { get; init; } = [];

    /// <summary>Gets the faults.</summary>
    public IReadOnlyList<SimulatedFault> Faults { get; init; } = [];

    /// <summary>Gets the rate in Hz at which the machine is stepped at least; contact of armature and core needs 60 kHz, what has none a third of it.</summary>
    public double InternalHz { get; init; } = 60_000;

    /// <summary>Gets what the faults change in the model; null where there is none.</summary>
    internal FaultPhysics? Physics { get; init; }

    /// <summary>Gets the magnet, where it is known already; null has it scaled to the stroke.</summary>
    internal MagnetScale? Magnet { get; init; }

    /// <summary>Gets the accelerometer.</summary>
    public SimulatedAccelerometer Sensor { get; init; } = new();
}
