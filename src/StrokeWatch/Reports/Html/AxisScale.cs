namespace StrokeWatch.Reports.Html;

/// <summary>How values along one axis become places in a drawing.</summary>
/// <param name="From">The value at <paramref name="Start"/>.</param>
/// <param name="To">The value at <paramref name="End"/>.</param>
/// <param name="Start">A place in the drawing.</param>
/// <param name="End">Another place in the drawing.</param>
internal readonly record struct AxisScale(double From, double To, double Start, double End)
{
    /// <summary>Gives the place of a value.</summary>
    public double At(double value) => Start + (value - From) / (To - From) * (End - Start);
}
