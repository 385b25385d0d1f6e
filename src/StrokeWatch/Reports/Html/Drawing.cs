using System.Text;

namespace StrokeWatch.Reports.Html;

/// <summary>One drawing; where it is painted, and what the looks of its parts are, is the surface's business.</summary>
internal sealed class Drawing : IDisposable
{
    private readonly IDrawingSurface surface;

    /// <summary>Begins a drawing inside a page of markup.</summary>
    public Drawing(Markup page, double width, double height, string says, string variant = "")
        : this(new SvgSurface(page), width, height, says, variant)
    {
    }

    /// <summary>Begins a drawing.</summary>
    /// <param name="surface">What it is painted on.</param>
    /// <param name="width">Width in units; the surface scales the drawing to the room there is.</param>
    /// <param name="height">Height in units.</param>
    /// <param name="says">What the drawing shows, for those who cannot see it.</param>
    /// <param name="variant">A class that says on which screens it is shown.</param>
    public Drawing(IDrawingSurface surface, double width, double height, string says, string variant = "")
    {
        this.surface = surface;
        (Width, Height) = (width, height);
        surface.Begin(width, height, says, variant);
    }

    /// <summary>Gets the width in units.</summary>
    public double Width { get; }

    /// <summary>Gets the height in units.</summary>
    public double Height { get; }

    /// <summary>Estimates the width of a text in a size: the faces asked for stay below it.</summary>
    public static double TextWidth(string text, double size) => 0.56 * size * text.Length;

    /// <summary>Draws a straight line.</summary>
    public void Line(double x1, double y1, double x2, double y2, string look) => Path($"M{Figure.Place(x1)} {Figure.Place(y1)}L{Figure.Place(x2)} {Figure.Place(y2)}", look);

    /// <summary>Draws a path given in SVG's letters M, L, H, V and Z.</summary>
    public void Path(string steps, string look) => surface.Path(steps, look);

    /// <summary>Draws a path given in SVG's letters about a point.</summary>
    public void PathAt(double x, double y, string steps, string look) => surface.PathAt(x, y, steps, look);

    /// <summary>Draws a line through points, closed or open.</summary>
    public void Through(IEnumerable<(double X, double Y)> points, string look, bool closed = false) => Path(Steps(points, closed), look);

    /// <summary>Draws an upright rectangle.</summary>
    public void Box(double left, double top, double right, double bottom, string look) => surface.Box(left, top, right, bottom, look);

    /// <summary>Draws a dot.</summary>
    public void Dot(double x, double y, double radius, string look) => surface.Dot(x, y, radius, look);

    /// <summary>Writes a text; its anchor is <c>start</c>, <c>middle</c> or <c>end</c>.</summary>
    public void Text(double x, double y, string text, string anchor = "start", string look = "label") => surface.Text(x, y, text, anchor, look);

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
    public void Dispose() => surface.End();
}
