namespace StrokeWatch.Samples.Csv;

/// <summary>A line before a table, cut into cells.</summary>
/// <param name="Cells">The cells, empty ones at the end left out.</param>
/// <param name="IsComment">Whether it begins as a comment does.</param>
internal sealed record HeadLine(string[] Cells, bool IsComment);
