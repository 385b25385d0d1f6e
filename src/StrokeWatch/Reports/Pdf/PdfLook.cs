using PdfSharp.Drawing;

namespace StrokeWatch.Reports.Pdf;

/// <summary>How a part of a drawing looks on paper.</summary>
/// <param name="Fill">The colour it is filled with; null for none.</param>
/// <param name="Stroke">The colour of its line; null for none.</param>
/// <param name="Width">The width of its line in units of the drawing.</param>
/// <param name="Dash">Lengths of dashes and gaps in units of the drawing; null for a whole line.</param>
/// <param name="Hatch">The colour of its hatching; null for none.</param>
/// <param name="Pitch">Distance of the hatching's lines, in units of the drawing.</param>
/// <param name="HatchWidth">The width of the hatching's lines.</param>
internal sealed record PdfLook(
    XColor? Fill = null, XColor? Stroke = null, double Width = 1, IReadOnlyList<double>? Dash = null, XColor? Hatch = null, double Pitch = 7, double HatchWidth = 1);
