namespace StrokeWatch.Sensors.Simulated;

/// <summary>The material on a simulated tray.</summary>
public sealed record SimulatedMaterial
{
    /// <summary>Gets the mass that moves with the tray, in kg.</summary>
    public double LoadKilograms { get; init; }

    /// <summary>Gets how many pieces a second fall on the tray, at random.</summary>
    public double ImpactsPerSecond { get; init; }

    /// <summary>Gets the mean peak force of a falling piece in N; single peaks spread exponentially.</summary>
    public double ImpactNewtons { get; init; } = 300;

    /// <summary>Gets the length of a blow by a piece, in seconds.</summary>
    public double ImpactSeconds { get; init; } = 0.4e-3;

    /// <summary>Gets the r.m.s. force in N of lumps passing over the tray.</summary>
    public double LumpNewtons { get; init; }

    /// <summary>Gets about how often a second lumps pass.</summary>
    public double LumpHz { get; init; } = 3;
}
