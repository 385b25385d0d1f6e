namespace StrokeWatch.Outputs.Influx;

/// <summary>Which time-series server rows are forwarded to, and how.</summary>
public sealed record InfluxOptions
{
    /// <summary>Gets the server's address, http or https; what takes the path api/v2/write under it will do.</summary>
    public required Uri Url { get; init; }

    /// <summary>Gets the organisation's name.</summary>
    public required string Org { get; init; }

    /// <summary>Gets the bucket's name.</summary>
    public required string Bucket { get; init; }

    /// <summary>Gets the file that holds the token; null where the server asks for none.</summary>
    public string? TokenPath { get; init; }

    /// <summary>Gets the most rows of one request.</summary>
    public int BatchRows { get; init; } = 1000;

    /// <summary>Gets how long an answer is waited for.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Gets how often the store is looked at for new rows while all is well.</summary>
    public TimeSpan Interval { get; init; } = TimeSpan.FromSeconds(5);
}
