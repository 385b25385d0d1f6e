namespace StrokeWatch.Reports.Html;

/// <summary>One place of the stroke's trace: one window, or the extremes of several; lengths in metres.</summary>
/// <param name="Seconds">Middle of the (first) window.</param>
/// <param name="Least">Smallest stroke.</param>
/// <param name="Most">Largest stroke.</param>
/// <param name="Below">Lower end of the expanded uncertainty.</param>
/// <param name="Above">Upper end of the expanded uncertainty.</param>
internal readonly record struct TracePoint(double Seconds, double Least, double Most, double Below, double Above)
{
    /// <summary>Gives the extremes of this and another.</summary>
    public TracePoint With(in TracePoint other) => this with
    {
        Least = Math.Min(Least, other.Least),
        Most = Math.Max(Most, other.Most),
        Below = Math.Min(Below, other.Below),
        Above = Math.Max(Above, other.Above),
    };
}
