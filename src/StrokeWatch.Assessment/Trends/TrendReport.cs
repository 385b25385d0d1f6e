namespace StrokeWatch.Assessment.Trends;

/// <summary>What a trend tells by now.</summary>
public sealed record TrendReport
{
    /// <summary>Gets what the feature does.</summary>
    public required TrendState State { get; init; }

    /// <summary>Gets when the drift was signalled; null while steady.</summary>
    public DateTimeOffset? Signalled { get; init; }

    /// <summary>Gets the reading from which the sum that signalled has been above zero: the plainest estimate of when the drift began; null while steady.</summary>
    public DateTimeOffset? AboveZeroSince { get; init; }

    /// <summary>Gets date, size and rate of the change by the greatest likelihood; null while steady.</summary>
    public ChangePoint? Change { get; init; }

    /// <summary>Gets the average of the latest readings, in the feature's unit, single wild ones held in; null before the first reading.</summary>
    public double? Level { get; init; }

    /// <summary>Gets the lower limit of that average for a healthy machine.</summary>
    public double? LevelLower { get; init; }

    /// <summary>Gets the upper limit of that average for a healthy machine.</summary>
    public double? LevelUpper { get; init; }

    /// <summary>Gets how many readings were taken.</summary>
    public required long Readings { get; init; }

    /// <summary>Gets the average number of readings of a healthy machine to a false signal.</summary>
    public required double RunLength { get; init; }
}
