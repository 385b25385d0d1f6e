namespace StrokeWatch.Reports.Sheets;

/// <summary>A line of a sheet's plot, in the plot's units.</summary>
/// <param name="Key">Its key in JSON.</param>
/// <param name="Look">Its class in the style sheet.</param>
/// <param name="Points">Its points; a break where one is not a number.</param>
internal sealed record SheetLine(string Key, string Look, IReadOnlyList<(double X, double Y)> Points);
