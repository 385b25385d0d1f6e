namespace StrokeWatch.Sensors.Simulated.Histories;

/// <summary>What is asked of a history; null leaves it to chance.</summary>
public sealed record HistoryWishes
{
    /// <summary>The kind of a history without a fault.</summary>
    public const string Healthy = "healthy";

    /// <summary>Gets the kind of fault, a name of <see cref="Faults.FaultTable"/>, or <see cref="Healthy"/>.</summary>
    public string? Kind { get; init; }

    /// <summary>Gets the number of captures, 2 to 100.</summary>
    public int? Captures { get; init; }

    /// <summary>Gets how the fault comes.</summary>
    public FaultGrowth? Growth { get; init; }

    /// <summary>Gets the severity in the last capture, 0 to 1.</summary>
    public double? Severity { get; init; }

    /// <summary>Gets the date of the first capture.</summary>
    public DateTimeOffset? First { get; init; }
}
