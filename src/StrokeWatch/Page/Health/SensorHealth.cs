namespace StrokeWatch.Page.Health;

/// <summary>How one device with sensors is, counted since the start.</summary>
internal sealed record SensorHealth
{
    /// <summary>Gets the places of its sensors; empty where there is one.</summary>
    public required IReadOnlyList<string> Places { get; init; }

    /// <summary>Gets what it speaks.</summary>
    public required string Format { get; init; }

    /// <summary>Gets the rate in Hz as it is stated; null where it is not.</summary>
    public required double? RateHz { get; init; }

    /// <summary>Gets the rate in Hz as it is measured; null until it is.</summary>
    public required double? MeasuredRateHz { get; init; }

    /// <summary>Gets the samples that came.</summary>
    public required long Samples { get; init; }

    /// <summary>Gets the gaps in them.</summary>
    public required long Gaps { get; init; }

    /// <summary>Gets the samples missing in those, as far as known.</summary>
    public required long Missing { get; init; }

    /// <summary>Gets how often it was reached again after it was lost.</summary>
    public required long Reopenings { get; init; }

    /// <summary>Gets the bytes that belong to no good frame or line.</summary>
    public required long SkippedBytes { get; init; }

    /// <summary>Gets the samples at the sensor's rail.</summary>
    public required long Clipped { get; init; }

    /// <summary>Gets how long ago samples came, in seconds; null before the first.</summary>
    public required double? AgeSeconds { get; init; }

    /// <summary>Gets the frames or lines turned down, by reason.</summary>
    public required IReadOnlyDictionary<string, long> Rejected { get; init; }
}
