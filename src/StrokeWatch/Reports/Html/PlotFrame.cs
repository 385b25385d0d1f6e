namespace StrokeWatch.Reports.Html;

/// <summary>The axes of a plot: grid, ticks at round steps, numbers, and the unit of each side written upright above it.</summary>
/// <param name="drawing">The drawing.</param>
/// <param name="x">The axis along the bottom.</param>
/// <param name="y">The axis on the left.</param>
internal sealed class PlotFrame(Drawing drawing, AxisScale x, AxisScale y)
{
    private const double TickLength = 5;

    /// <summary>Gets the axis along the bottom.</summary>
    public AxisScale X => x;

    /// <summary>Gets the axis on the left.</summary>
    public AxisScale Y => y;

    private double Left => x.Start;

    private double Right => x.End;

    private double Top => y.End;

    private double Bottom => y.Start;

    /// <summary>Draws the left axis with its grid.</summary>
    /// <param name="unit">The words above the axis.</param>
    /// <param name="most">Most ticks.</param>
    public void LeftAxis(string unit, int most)
    {
        var step = Ticks.Step(y.To - y.From, most);
        foreach (var value in Ticks.Between(y.From, y.To, step))
        {
            LeftTick(y.At(value), Figure.Of(value, Ticks.Digits(step)));
        }

        LeftEdge(unit);
    }

    /// <summary>Draws one tick of the left axis with its grid line and its number.</summary>
    public void LeftTick(double at, string? number)
    {
        drawing.Line(Left, at, Right, at, number is null ? "grid fine" : "grid");
        drawing.Line(Left - (number is null ? 0.6 : 1) * TickLength, at, Left, at, "axis");
        if (number is not null)
        {
            drawing.Text(Left - TickLength - 3, at + 4, number, "end", "number");
        }
    }

    /// <summary>Draws the line of the left axis and its unit.</summary>
    public void LeftEdge(string unit)
    {
        drawing.Line(Left, Bottom, Left, Top, "axis");
        drawing.Text(Math.Max(2, Left - 50), Top - 10, unit, "start", "unit");
    }

    /// <summary>Draws a right axis in another unit.</summary>
    /// <param name="unit">The words above the axis.</param>
    /// <param name="from">The value at the bottom.</param>
    /// <param name="to">The value at the top.</param>
    /// <param name="most">Most ticks.</param>
    public void RightAxis(string unit, double from, double to, int most)
    {
        var step = Ticks.Step(to - from, most);
        var scale = y with { From = from, To = to };
        drawing.Line(Right, Bottom, Right, Top, "axis");
        foreach (var value in Ticks.Between(from, to, step))
        {
            drawing.Line(Right, scale.At(value), Right + TickLength, scale.At(value), "axis");
            drawing.Text(Right + TickLength + 3, scale.At(value) + 4, Figure.Of(value, Ticks.Digits(step)), "start", "number");
        }

        drawing.Text(Math.Min(drawing.Width - 2, Right + 46), Top - 10, unit, "end", "unit");
    }

    /// <summary>Draws the axis along the bottom.</summary>
    /// <param name="words">What it shows, with its unit.</param>
    /// <param name="most">Most ticks.</param>
    /// <param name="at">Where it lies; the bottom of the left axis where not said.</param>
    public void BottomAxis(string words, int most, double? at = null)
    {
        var bottom = at ?? Bottom;
        var step = Ticks.Step(x.To - x.From, most);
        drawing.Line(Left, bottom, Right, bottom, "axis");
        foreach (var value in Ticks.Between(x.From, x.To, step))
        {
            drawing.Line(x.At(value), Top, x.At(value), bottom, "grid");
            drawing.Line(x.At(value), bottom, x.At(value), bottom + TickLength, "axis");
            drawing.Text(x.At(value), bottom + TickLength + 12, Figure.Of(value, Ticks.Digits(step)), "middle", "number");
        }

        drawing.Text(0.5 * (Left + Right), bottom + TickLength + 28, words, "middle", "unit");
    }
}
