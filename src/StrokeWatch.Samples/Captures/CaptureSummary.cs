namespace StrokeWatch.Samples.Captures;

/// <summary>What is known of a capture as a whole before it is read.</summary>
public sealed record CaptureSummary
{
    /// <summary>Gets the samples it holds; null where only reading it to its end would tell.</summary>
    public long? Samples { get; init; }

    /// <summary>Gets what its time column shows; null where it has none.</summary>
    public TimestampStatistics? Timestamps { get; init; }

    /// <summary>Gets the rate that its header states, in Hz, whether or not it is believed; null where it states none.</summary>
    public double? HeaderRateHz { get; init; }

    /// <summary>Gets whether its file can be opened again from the start; false for a pipe.</summary>
    public bool Repeatable { get; init; } = true;
}
