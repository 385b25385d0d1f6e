using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Draws nothing and remembers how large a drawing is, so that a page can be turned before it.</summary>
internal sealed class DrawingSize : IDrawingSurface
{
    /// <summary>Gets height over width.</summary>
    public double Tall { get; private set; }

    /// <inheritdoc/>
    public void Begin(double width, double height, string says, string variant) => Tall = height / width;

    /// <inheritdoc/>
    public void Path(string steps, string look)
    {
    }

    /// <inheritdoc/>
    public void PathAt(double x, double y, string steps, string look)
    {
    }

    /// <inheritdoc/>
    public void Box(double left, double top, double right, double bottom, string look)
    {
    }

    /// <inheritdoc/>
    public void Dot(double x, double y, double radius, string look)
    {
    }

    /// <inheritdoc/>
    public void Text(double x, double y, string text, string anchor, string look)
    {
    }

    /// <inheritdoc/>
    public void End()
    {
    }
}
