namespace StrokeWatch.Sensors.Simulated;

/// <summary>A simulated channel that takes the supply's voltage with the samples.</summary>
public sealed record SimulatedSupplyChannel
{
    /// <summary>Gets the root mean square of the mains in volts at 100 %.</summary>
    public double FullVolts { get; init; } = 230;

    /// <summary>Gets whether it is taken at the coil, behind the controller that cuts, instead of ahead of it.</summary>
    public bool AtCoil { get; init; }

    /// <summary>Gets the r.m.s. of the channel's white noise in volts.</summary>
    public double NoiseVolts { get; init; } = 0.5;

    /// <summary>Gets the volts in one unit of the channel.</summary>
    public double VoltsPerUnit { get; init; } = 1;
}
