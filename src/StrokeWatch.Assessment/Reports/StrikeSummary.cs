namespace StrokeWatch.Assessment.Reports;

/// <summary>Armature strike over a whole capture.</summary>
/// <param name="Found">Whether the armature struck: in two windows running, or in any where there are fewer than three.</param>
/// <param name="FirstSeconds">Start of the first window with strike.</param>
/// <param name="Windows">Number of windows with strike.</param>
/// <param name="ScoreMax">Largest score; 1 is the threshold; null where none could be judged.</param>
/// <param name="Every">The rhythm of most windows with strike: in every cycle (1), every second or every third; null where none was found.</param>
public sealed record StrikeSummary(bool Found, double? FirstSeconds, int Windows, double? ScoreMax, int? Every);
