namespace StrokeWatch.Assessment.Reports;

/// <summary>One dated capture of a history.</summary>
/// <param name="Capture">The capture's name as the user gave it.</param>
/// <param name="Recorded">When its first sample was taken.</param>
/// <param name="DateAssumed">Whether the date is only the file's own time.</param>
/// <param name="Features">What it tells.</param>
public sealed record HistoryPoint(string Capture, DateTimeOffset Recorded, bool DateAssumed, CaptureFeatures Features);
