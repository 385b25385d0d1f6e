using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Page;

/// <summary>The newest window, and when anything was last heard of the tray.</summary>
/// <param name="Window">The window with its verdict.</param>
/// <param name="Utc">When it ended, in UTC.</param>
/// <param name="Heard">The clock's time stamp at the end of the last window that was no gap; null before the first.</param>
/// <param name="Number">How many windows there have been, this one included.</param>
internal sealed record BoardReading(AssessedWindow Window, DateTimeOffset Utc, long? Heard, long Number);
