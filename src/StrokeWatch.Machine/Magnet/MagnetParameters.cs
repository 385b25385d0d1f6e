namespace StrokeWatch.Machine.Magnet;

/// <summary>A magnet and the switch that feeds it.</summary>
public sealed record MagnetParameters
{
    /// <summary>Gets how the supply makes the magnet pull.</summary>
    public DriveKind Kind { get; init; }

    /// <summary>Gets the pull in N at flux 1, the flux amplitude that the full supply voltage makes in a coil without resistance.</summary>
    public double ForceAtUnitFlux { get; init; } = 1;

    /// <summary>Gets the firing angle in degrees after the voltage's zero, 0 (no phase control) to 175.</summary>
    public double FiringDegrees { get; init; }

    /// <summary>Gets the coil's resistance over its reactance at the gap at rest.</summary>
    public double ResistanceRatio { get; init; } = 0.1;

    /// <summary>Gets the permanent magnet's flux, in the same unit; 0 where there is none.</summary>
    public double BiasFlux { get; init; }
}
