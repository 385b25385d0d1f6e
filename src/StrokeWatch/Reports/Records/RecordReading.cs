namespace StrokeWatch.Reports.Records;

/// <summary>The reading at the head of a record, to be seen from arm's length.</summary>
/// <param name="Stroke">The stroke in mm, or that there is none.</param>
/// <param name="Inches">The stroke in inches; empty where there is none.</param>
/// <param name="Spread">Its uncertainty, or why there is none.</param>
/// <param name="Verdict">Where it lies, in words.</param>
/// <param name="Reason">Why there is none, or why it is not that of the stroke itself; empty where nothing is to be said.</param>
/// <param name="Kind">The verdict's name, by which a page may colour it.</param>
/// <param name="Strike">What is known of armature strike.</param>
/// <param name="StrikeFound">Whether the armature strikes.</param>
internal sealed record RecordReading(string Stroke, string Inches, string Spread, string Verdict, string Reason, string Kind, string Strike, bool StrikeFound) : RecordBlock;
