namespace StrokeWatch.Reports.Html;

/// <summary>One lane below the stroke's plot: when something was so.</summary>
/// <param name="Name">What was so.</param>
/// <param name="Sign">Its sign, in SVG's letters about the origin.</param>
/// <param name="Look">Class of its bars.</param>
/// <param name="Spans">When, in seconds, in order of time.</param>
internal sealed record Lane(string Name, string Sign, string Look, IReadOnlyList<(double From, double To)> Spans);
