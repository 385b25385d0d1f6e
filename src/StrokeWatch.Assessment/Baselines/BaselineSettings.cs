namespace StrokeWatch.Assessment.Baselines;

/// <summary>How much is enough to know a healthy machine by.</summary>
public sealed record BaselineSettings
{
    /// <summary>Gets the features without which there is no baseline; the stroke where not given.</summary>
    public IReadOnlyList<string> Required { get; init; } = ["stroke_mm"];

    /// <summary>Gets how many readings of a feature are enough: 30 where not given, by which the spread is known to 13 % (k = 1).</summary>
    public int Enough { get; init; } = 30;

    /// <summary>Gets the fewest readings that a feature is kept with when time is up, at least 3; 8 where not given.</summary>
    public int Fewest { get; init; } = 8;

    /// <summary>Gets the shortest time to learn over, so that the loads of several shifts are in it; three days where not given.</summary>
    public TimeSpan Shortest { get; init; } = TimeSpan.FromDays(3);

    /// <summary>Gets the longest time to wait for features that come seldom, such as those of coast-downs; 14 days where not given.</summary>
    public TimeSpan Longest { get; init; } = TimeSpan.FromDays(14);
}
