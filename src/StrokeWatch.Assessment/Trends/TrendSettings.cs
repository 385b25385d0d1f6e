namespace StrokeWatch.Assessment.Trends;

/// <summary>How a trend is watched.</summary>
public sealed record TrendSettings
{
    /// <summary>Gets the average number of readings of a healthy machine to a false signal; 1000 where not given, from above 1 to 10 million.</summary>
    public double RunLength { get; init; } = 1000;

    /// <summary>Gets the shift to be found soonest, in standard deviations of a reading; 1 where not given, above 0.</summary>
    public double Shift { get; init; } = 1;

    /// <summary>Gets the soft limit of a reading, in standard deviations: no single reading, however wild, counts for more; 3 where not given.</summary>
    public double Limit { get; init; } = 3;

    /// <summary>Gets the share of the newest reading in the average that tells the level; 0.1 where not given.</summary>
    public double Weight { get; init; } = 0.1;
}
