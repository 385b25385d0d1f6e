namespace StrokeWatch.Assessment.Stretches;

/// <summary>How running is cut into stretches.</summary>
public sealed record StretchSettings
{
    /// <summary>Gets how long a stretch lasts at most, in seconds, 60 to 43 200; an hour where not given. Memory goes with it: about a MiB an hour.</summary>
    public double LongestSeconds { get; init; } = 3600;

    /// <summary>Gets the steady running in seconds, 1 to 600, below which a stretch tells nothing; 30 where not given.</summary>
    public double LeastSeconds { get; init; } = 30;

    /// <summary>Gets the length in seconds from which on a stop ends a stretch: a sixth of the longest. A feeder that doses in bursts has one stretch over several of them.</summary>
    public double StopEndsSeconds => LongestSeconds / 6;

    /// <summary>Gets the time in seconds for which the tray must stand still to end any stretch.</summary>
    public double StandstillSeconds { get; init; } = 600;

    /// <summary>Gets the silence in seconds that ends a stretch; a shorter one is a gap in it.</summary>
    public double GapSeconds { get; init; } = 60;
}
