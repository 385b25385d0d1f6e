namespace StrokeWatch.Sensors.Chips;

/// <summary>What a check of a chip found.</summary>
public sealed record ChipFindings
{
    /// <summary>Gets in a sentence why there are no samples, or no more; null where there are.</summary>
    public string? Trouble { get; init; }

    /// <summary>Gets what is amiss with the chip although it is used.</summary>
    public IReadOnlyList<string> Told { get; init; } = [];

    /// <summary>Gets what the chip showed at its start; null where it did not come so far.</summary>
    public SelfTestResult? Start { get; init; }

    /// <summary>Gets the temperature in °C; null where it was not read.</summary>
    public double? Temperature { get; init; }

    /// <summary>Gets the time in s over which samples were counted.</summary>
    public double Seconds { get; init; }

    /// <summary>Gets the rate in Hz by the host's clock; null where it was not measured.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets how far that rate may be off, as a part of it: one drain over the time.</summary>
    public double RateError { get; init; }

    /// <summary>Gets the standard deviation of x, y, z in g, over the same time.</summary>
    public IReadOnlyList<double> SpreadG { get; init; } = [];

    /// <summary>Gets the gaps in that time.</summary>
    public long Gaps { get; init; }
}
