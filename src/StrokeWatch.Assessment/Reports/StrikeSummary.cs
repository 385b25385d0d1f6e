namespace StrokeWatch.Assessment.Reports;

/// <summary>Armature strike over a whole capture.</summary>
/// <param name="Found">Whether the armature struck: in two windows running, or in any where there are fewer than three.</param>
/// <param name="FirstSeconds">Start of the first window with strike.</param>
/// <param name="Windows">Number of windows with strike.</param>
/// <param name="ScoreMax">Largest score; 1 is the threshold; null where none could be judged.</param>
/// <param name="Every">The rhythm of most windows with strike: in every cycle (1), every second or every third; null where none was found.</param>
/// <param name="Judged">Number of windows that could be judged.</param>
/// <param name="Possible">Number of these in which no strike was called and yet one of 30 % of the magnet's peak pull cannot be ruled out.</param>
public sealed record StrikeSummary(bool Found, double? FirstSeconds, int Windows, double? ScoreMax, int? Every, int Judged, int Possible)
{
    /// <summary>One window in so many may leave a strike possible before the capture does: single ones do by chance, of a machine that strikes nearly all.</summary>
    private const int Tenth = 10;

    /// <summary>Gets whether none was found and yet none can be ruled out.</summary>
    public bool Open => !Found && Possible * Tenth > Judged;
}
