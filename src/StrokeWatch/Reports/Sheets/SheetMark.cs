namespace StrokeWatch.Reports.Sheets;

/// <summary>A marked place of a sheet's plot.</summary>
/// <param name="X">Its place along the bottom; NaN for a level line through the whole plot.</param>
/// <param name="Y">Its height; NaN for an upright line.</param>
/// <param name="Words">What stands beside it; empty for nothing.</param>
/// <param name="Look">Its class in the style sheet.</param>
internal sealed record SheetMark(double X, double Y, string Words, string Look = "dot");
