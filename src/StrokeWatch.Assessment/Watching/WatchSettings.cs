namespace StrokeWatch.Assessment.Watching;

/// <summary>How a machine is watched over weeks.</summary>
public sealed record WatchSettings
{
    /// <summary>Gets the average number of stretches of a healthy machine to a false signal of any of the symptoms that are followed; 5000 where not given: at one an hour, day and night, seven months.</summary>
    public double RunLength { get; init; } = 5000;

    /// <summary>Gets the shift to be found soonest, in standard deviations of one stretch; 2 where not given, so that what differs from shift to shift does not add up.</summary>
    public double Shift { get; init; } = 2;

    /// <summary>Gets the confidence from which on a cause is named, 0 to 1.</summary>
    public double Named { get; init; } = 0.6;

    /// <summary>Gets how long what a stop or a start told is held to be true, as long as the stroke stays where it was.</summary>
    public TimeSpan TransientHolds { get; init; } = TimeSpan.FromDays(7);
}
