namespace StrokeWatch.Machine.Feeder;

/// <summary>What is known of the voltage that feeds the magnet.</summary>
public sealed record SupplyDescription
{
    /// <summary>Gets the root mean square in volts at which the stroke band holds: full voltage; null where not given.</summary>
    public double? FullVolts { get; init; }

    /// <summary>Gets the root mean square in volts as somebody read it off a meter, used where no channel is captured; null where nobody did.</summary>
    public double? EnteredVolts { get; init; }

    /// <summary>Gets the volts in one unit of a captured channel, above 0.</summary>
    public double VoltsPerUnit { get; init; } = 1;

    /// <summary>Gets the expanded (k = 2) relative uncertainty of the voltage; null where not given.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>Gets whether the magnet has a constant flux of its own (a permanent magnet or direct current), so that the alternating pull goes with the voltage and not with its square.</summary>
    public bool Biased { get; init; }
}
