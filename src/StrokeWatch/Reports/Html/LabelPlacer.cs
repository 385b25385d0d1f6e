namespace StrokeWatch.Reports.Html;

/// <summary>Finds a place for a label where it covers the fewest points of the data and no other label.</summary>
internal sealed class LabelPlacer(IReadOnlyList<(double X, double Y)> points)
{
    private const double Size = 12;
    private const double OverLabel = 1e6;
    private const double Apart = 6;

    private readonly List<(double Left, double Top, double Right, double Bottom)> taken = [];

    /// <summary>Gives the left end of the baseline for a label that stands just above or below a level line.</summary>
    /// <param name="text">The label.</param>
    /// <param name="left">Leftmost place.</param>
    /// <param name="right">Rightmost place.</param>
    /// <param name="baselines">The baselines it may stand on, the best first.</param>
    public (double X, double Y) Along(string text, double left, double right, params ReadOnlySpan<double> baselines)
    {
        var width = Drawing.TextWidth(text, Size);
        var best = (X: left, Y: baselines[0]);
        var least = double.PositiveInfinity;
        foreach (var baseline in baselines)
        {
            for (var i = 0; i <= 4; i++)
            {
                var x = left + 0.25 * i * Math.Max(0, right - left - width);
                var cost = Cost(x, baseline - Size, x + width, baseline + 3);
                if (cost < least)
                {
                    (least, best) = (cost, (x, baseline));
                }
            }
        }

        taken.Add((best.X - Apart, best.Y - Size, best.X + width + Apart, best.Y + 3));
        return best;
    }

    private double Cost(double left, double top, double right, double bottom)
    {
        var cost = 0.0;
        foreach (var (x, y) in points)
        {
            cost += x >= left && x <= right && y >= top && y <= bottom ? 1 : 0;
        }

        foreach (var other in taken)
        {
            cost += left < other.Right && right > other.Left && top < other.Bottom && bottom > other.Top ? OverLabel : 0;
        }

        return cost;
    }
}
