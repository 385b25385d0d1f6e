namespace StrokeWatch.Reports.Html;

/// <summary>Paints drawings as SVG inside a page; looks are class names of the page's style sheet.</summary>
internal sealed class SvgSurface(Markup page) : IDrawingSurface
{
    /// <inheritdoc/>
    public void Begin(double width, double height, string says, string variant)
    {
        page.Open("svg", ("viewBox", $"0 0 {Figure.Place(width)} {Figure.Place(height)}"), ("role", "img"), ("class", $"drawing {variant}".TrimEnd()), ("aria-label", says));
        page.Text("\n");
    }

    /// <inheritdoc/>
    public void Path(string steps, string look) => page.Empty("path", ("class", look), ("d", steps));

    /// <inheritdoc/>
    public void PathAt(double x, double y, string steps, string look) =>
        page.Empty("path", ("class", look), ("transform", $"translate({Figure.Place(x)} {Figure.Place(y)})"), ("d", steps));

    /// <inheritdoc/>
    public void Box(double left, double top, double right, double bottom, string look) => page.Empty(
        "rect", ("class", look), ("x", Figure.Place(left)), ("y", Figure.Place(top)), ("width", Figure.Place(Math.Max(0, right - left))), ("height", Figure.Place(Math.Max(0, bottom - top))));

    /// <inheritdoc/>
    public void Dot(double x, double y, double radius, string look) =>
        page.Empty("circle", ("class", look), ("cx", Figure.Place(x)), ("cy", Figure.Place(y)), ("r", Figure.Place(radius)));

    /// <inheritdoc/>
    public void Text(double x, double y, string text, string anchor, string look)
    {
        page.Leaf("text", text, ("class", look), ("x", Figure.Place(x)), ("y", Figure.Place(y)), ("text-anchor", anchor));
        page.Text("\n");
    }

    /// <inheritdoc/>
    public void End() => page.Close();
}
