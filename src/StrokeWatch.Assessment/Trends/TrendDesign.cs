namespace StrokeWatch.Assessment.Trends;

/// <summary>The charts of a trend, designed once by run length for all features whose baselines were learned from as many readings.</summary>
public sealed record TrendDesign
{
    private const double MostDecision = 400;
    private const double Widening = 1;

    /// <summary>Beyond this the level's own equation is lost in rounding; the level signals nothing, its limits are only shown.</summary>
    private const double MostLevelRun = 10_000;

    private TrendDesign()
    {
    }

    /// <summary>Gets k, what is taken off each reading, in standard deviations.</summary>
    public required double Allowance { get; init; }

    /// <summary>Gets h, the sum that signals, in standard deviations.</summary>
    public required double Decision { get; init; }

    /// <summary>Gets the average number of readings of a healthy machine to a false signal, the baseline's own uncertainty allowed for.</summary>
    public required double RunLength { get; init; }

    /// <summary>Gets the chart that tells the level.</summary>
    public required EwmaDesign Level { get; init; }

    /// <summary>Gets the number of readings of the baseline; null where it is known.</summary>
    public required int? Readings { get; init; }

    /// <summary>Gets the soft limit of a reading, in standard deviations.</summary>
    public double Limit => Level.Limit;

    /// <summary>Designs the charts; takes a tenth of a second or so.</summary>
    /// <param name="settings">How the trend is watched.</param>
    /// <param name="readings">How many readings the baseline was learned from, at least 3; null where it is known.</param>
    public static TrendDesign For(TrendSettings settings, int? readings)
    {
        var doubt = new BaselineDoubt(readings, settings.Limit, settings.RunLength);

        // What the baseline's mean may be off by must not add up: the allowance grows by its standard uncertainty.
        var allowance = SoftLimit.Of(settings.Shift, settings.Limit) / 2 + (readings is { } count ? Widening / Math.Sqrt(count) : 0);
        var known = CusumDesign.For(settings.RunLength, 2 * allowance);
        return new()
        {
            Allowance = allowance,
            Decision = RunLengthRoot.Solve(settings.RunLength, known.Decision, MostDecision, reach => doubt.RunLength(allowance, reach)),
            RunLength = settings.RunLength,
            Level = EwmaDesign.For(Math.Min(settings.RunLength, MostLevelRun), settings.Weight, settings.Limit),
            Readings = readings,
        };
    }
}
