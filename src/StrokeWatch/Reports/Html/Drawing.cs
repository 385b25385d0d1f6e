using System.Text;

namespace StrokeWatch.Reports.Html;

/// <summary>One SVG drawing inside the page; what its parts look like is said by the page's style sheet through class names.</summary>
internal sealed class Drawing : IDisposable
{
    private readonly Markup page;

    /// <summary>Begins a drawing.</summary>
    /// <param name="page">The page.</param>
    /// <param name="width">Width in units; the page scales the drawing to the room there is.</param>
    /// <param name="height">Height in units.</param>
    /// <param name="says">What the drawing shows, for those who cannot see it.</param>
    /// <param name="variant">A class that says on which screens it is shown.</param>
    public Drawing(Markup page, double width, double height, string says, string variant = "")
    {
        this.page = page;
        (Width, Height) = (width, height);
        page.Open("svg", ("viewBox", $"0 0 {Figure.Place(width)} {Figure.Place(height)}"), ("role", "img"), ("class", $"drawing {variant}".TrimEnd()), ("aria-label", says));
        page.Text("\n");
    }

    /// <summary>Gets the width in units.</summary>
    public double Width { get; }

    /// <summary>Gets the height in units.</summary>
    public double Height { get; }

    /// <summary>Estimates the width of a text in a size: the faces asked for stay below it.</summary>
    public static double TextWidth(string text, double size) => 0.56 * size * text.Length;

    /// <summary>Draws a straight line.</summary>
    public void Line(double x1, double y1, double x2, double y2, string look) => Path($"M{Figure.Place(x1)} {Figure.Place(y1)}L{Figure.Place(x2)} {Figure.Place(y2)}", look);

    /// <summary>Draws a path given in SVG's own letters.</summary>
    public void Path(string steps, string look) => page.Empty("path", ("class", look), ("d", steps));

    /// <summary>Draws a path given in SVG's own letters about a point.</summary>
    public void PathAt(double x, double y, string steps, string look) =>
        page.Empty("path", ("class", look), ("transform", $"translate({Figure.Place(x)} {Figure.Place(y)})"), ("d", steps));

    /// <summary>Draws a line through points, closed or open.</summary>
    public void Through(IEnumerable<(double X, double Y)> points, string look, bool closed = false) => Path(Steps(points, closed), look);

    /// <summary>Draws an upright rectangle.</summary>
    public void Box(double left, double top, double right, double bottom, string look) => page.Empty(
        "rect", ("class", look), ("x", Figure.Place(left)), ("y", Figure.Place(top)), ("width", Figure.Place(Math.Max(0, right - left))), ("height", Figure.Place(Math.Max(0, bottom - top))));

    /// <summary>Draws a dot.</summary>
    public void Dot(double x, double y, double radius, string look) =>
        page.Empty("circle", ("class", look), ("cx", Figure.Place(x)), ("cy", Figure.Place(y)), ("r", Figure.Place(radius)));

    /// <summary>Writes a text; its anchor is <c>start</c>, <c>middle</c> or <c>end</c>.</summary>
    public void Text(double x, double y, string text, string anchor = "start", string look = "label")
    {
        page.Leaf("text", text, ("class", look), ("x", Figure.Place(x)), ("y", Figure.Place(y)), ("text-anchor", anchor));
        page.Text("\n");
    }

    /// <summary>Gives a line through points in SVG's own letters.</summary>
    public static string Steps(IEnumerable<(double X, double Y)> points, bool closed = false)
    {
        var steps = new StringBuilder();
        foreach (var (x, y) in points)
        {
            steps.Append(steps.Length == 0 ? 'M' : 'L').Append(Figure.Place(x)).Append(' ').Append(Figure.Place(y));
        }

        return closed ? steps.Append('Z').ToString() : steps.ToString();
    }

    /// <summary>Ends the drawing.</summary>
    public void Dispose() => page.Close();
}
