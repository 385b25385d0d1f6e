namespace StrokeWatch.Samples.Sources;

/// <summary>What a source has counted so far; every loss is in one of these. One thread counts; others may look.</summary>
public sealed class SourceCounters
{
    private readonly SortedDictionary<string, long> rejected = new(StringComparer.Ordinal);

    /// <summary>Gets or sets the samples delivered.</summary>
    public long Samples { get; set; }

    /// <summary>Gets or sets the gaps found.</summary>
    public long Gaps { get; set; }

    /// <summary>Gets or sets the samples missing in those gaps, as far as known.</summary>
    public long MissingSamples { get; set; }

    /// <summary>Gets or sets how often a live sensor was reached again after it was lost.</summary>
    public long Reopenings { get; set; }

    /// <summary>Gets or sets the bytes from a live sensor that belong to no good frame or line.</summary>
    public long SkippedBytes { get; set; }

    /// <summary>Gets the rows or frames rejected, by reason, as they stand now.</summary>
    public IReadOnlyDictionary<string, long> Rejected
    {
        get
        {
            lock (rejected)
            {
                return new SortedDictionary<string, long>(rejected, StringComparer.Ordinal);
            }
        }
    }

    /// <summary>Counts one rejected row or frame, or several, under a reason.</summary>
    public void Reject(string reason, long count = 1)
    {
        lock (rejected)
        {
            rejected[reason] = rejected.GetValueOrDefault(reason) + count;
        }
    }
}
