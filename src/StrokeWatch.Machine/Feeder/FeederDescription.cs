namespace StrokeWatch.Machine.Feeder;

/// <summary>A feeder as its file describes it; only the drive and the stroke band are always there.</summary>
public sealed record FeederDescription
{
    /// <summary>Gets the name, for people.</summary>
    public required string Name { get; init; }

    /// <summary>Gets the row of the models file it takes its values from, if any.</summary>
    public string? Model { get; init; }

    /// <summary>Gets the drive.</summary>
    public required DriveDescription Drive { get; init; }

    /// <summary>Gets the stroke band.</summary>
    public required StrokeBand Band { get; init; }

    /// <summary>Gets the line of action above the x axis in the x-z plane, in degrees; null where the vibration itself tells.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets what is known of the sensor, where there is one.</summary>
    public SensorDescription Sensor { get; init; } = new();

    /// <summary>Gets the sensors, where there are several: at least one of them on the tray; empty where there is one.</summary>
    public IReadOnlyList<PlacedSensor> Sensors { get; init; } = [];

    /// <summary>Gets what is known of the supply's voltage; null where nothing is.</summary>
    public SupplyDescription? Supply { get; init; }

    /// <summary>Gets the leaf springs, if known.</summary>
    public SpringDescription? Springs { get; init; }

    /// <summary>Gets the masses, if known.</summary>
    public MassDescription? Masses { get; init; }

    /// <summary>Gets the gap between armature and core at rest, in metres, if known.</summary>
    public double? RestGapMetres { get; init; }
}
