namespace StrokeWatch.Reports.Html;

/// <summary>What a <see cref="Drawing"/> is painted on: a page of markup, or a page of a PDF document.</summary>
internal interface IDrawingSurface
{
    /// <summary>Begins a drawing of a width and height in units; the surface scales it to the room there is.</summary>
    void Begin(double width, double height, string says, string variant);

    /// <summary>Draws a path given in SVG's letters M, L, H, V and Z.</summary>
    void Path(string steps, string look);

    /// <summary>Draws a path given in SVG's letters about a point.</summary>
    void PathAt(double x, double y, string steps, string look);

    /// <summary>Draws an upright rectangle.</summary>
    void Box(double left, double top, double right, double bottom, string look);

    /// <summary>Draws a dot.</summary>
    void Dot(double x, double y, double radius, string look);

    /// <summary>Writes a text on its baseline; its anchor is <c>start</c>, <c>middle</c> or <c>end</c>.</summary>
    void Text(double x, double y, string text, string anchor, string look);

    /// <summary>Ends the drawing.</summary>
    void End();
}
