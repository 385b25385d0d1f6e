using StrokeWatch.Assessment.Trends;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>What one feature is when the machine is healthy.</summary>
public sealed record BaselineFeature
{
    /// <summary>Gets the feature's name, such as <c>stroke_mm</c>; its unit is the end of it.</summary>
    public required string Name { get; init; }

    /// <summary>Gets the mean, in the feature's unit.</summary>
    public required double Mean { get; init; }

    /// <summary>Gets the standard deviation between readings, at or above 0, in the feature's unit.</summary>
    public required double Spread { get; init; }

    /// <summary>Gets what the readings scattered by their own noise alone (k = 1, root mean square); 0 where not known.</summary>
    public double OwnUncertainty { get; init; }

    /// <summary>Gets how many readings it was learned from, at least 3; null where it was told.</summary>
    public int? Count { get; init; }

    /// <summary>Gets how many readings were set aside as wild.</summary>
    public int SetAside { get; init; }

    /// <summary>Gets the time of the first reading; null where it was told.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Gets the time of the last reading; null where it was told.</summary>
    public DateTimeOffset? To { get; init; }

    /// <summary>Gives what a trend is watched against.</summary>
    public TrendBaseline ForTrend() => new(Mean, Spread, Count, OwnUncertainty);

    /// <summary>Says in one line what is wrong with it; null where nothing is.</summary>
    internal string? Fault() => this switch
    {
        { Name: "" } => "a feature has no name",
        _ when !double.IsFinite(Mean) => $"`mean` of {Name} is no finite number",
        _ when !(Spread >= 0 && double.IsFinite(Spread)) => $"`spread` of {Name} must be a number at or above 0",
        _ when !(OwnUncertainty >= 0 && double.IsFinite(OwnUncertainty)) => $"`own_uncertainty` of {Name} must be a number at or above 0",
        { Count: < 3 } => $"`count` of {Name} must be at least 3",
        { SetAside: < 0 } => $"`set_aside` of {Name} must be at or above 0",
        _ when From > To => $"`from` of {Name} is later than `to`",
        _ => null,
    };
}
