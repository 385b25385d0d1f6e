namespace StrokeWatch.Assessment.Trends;

/// <summary>When a feature changed, how, and by how much; uncertainties are standard ones (k = 1).</summary>
public sealed record ChangePoint
{
    /// <summary>Gets whether it changed at once or steadily, whichever the readings make likelier.</summary>
    public required ChangeShape Shape { get; init; }

    /// <summary>Gets the place in the list of the first reading after the change.</summary>
    public required int Reading { get; init; }

    /// <summary>Gets the likeliest date: that of the first changed reading of a step, that at which a ramp begins.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Gets the early end of the dates among which it lies with 95 % probability.</summary>
    public required DateTimeOffset Earliest { get; init; }

    /// <summary>Gets the late end of the dates among which it lies with 95 % probability.</summary>
    public required DateTimeOffset Latest { get; init; }

    /// <summary>Gets whether it may as well be older than the first reading of all.</summary>
    public bool MayBeOlder { get; init; }

    /// <summary>Gets the difference from the baseline: the mean since a step, the last value of a ramp.</summary>
    public required double Size { get; init; }

    /// <summary>Gets the uncertainty of the size, with that of the date and of the baseline in it.</summary>
    public required double SizeUncertainty { get; init; }

    /// <summary>Gets the rate a day: of the ramp, or of what still moves after a step; null where fewer than three readings or a single date tell it.</summary>
    public double? RatePerDay { get; init; }

    /// <summary>Gets the uncertainty of the rate a day.</summary>
    public double? RateUncertaintyPerDay { get; init; }
}
