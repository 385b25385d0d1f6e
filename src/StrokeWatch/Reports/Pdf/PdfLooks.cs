using PdfSharp.Drawing;

namespace StrokeWatch.Reports.Pdf;

/// <summary>The looks of the pages' style sheet on paper: the same names, colours that stay apart in grey.</summary>
internal static class PdfLooks
{
    /// <summary>What is written and drawn in black.</summary>
    public static readonly XColor Ink = XColor.FromArgb(0x12, 0x24, 0x1F);

    /// <summary>What stands back.</summary>
    public static readonly XColor Soft = XColor.FromArgb(0x4C, 0x61, 0x5A);

    /// <summary>Hairlines.</summary>
    public static readonly XColor Line = XColor.FromArgb(0xB6, 0xC6, 0xBF);

    private static readonly XColor Faint = XColor.FromArgb(0xDD, 0xE7, 0xE2);
    private static readonly XColor Glass = XColor.FromArgb(0x0D, 0x64, 0x53);
    private static readonly XColor Wash = XColor.FromArgb(38, 0x0D, 0x64, 0x53);
    private static readonly XColor Amber = XColor.FromArgb(0x8A, 0x52, 0x00);
    private static readonly XColor Stop = XColor.FromArgb(0xA0, 0x17, 0x22);

    private static readonly Dictionary<string, PdfLook> Shapes = new()
    {
        ["plate"] = new(XColors.White),
        ["gap"] = new(XColors.White),
        ["body"] = new(XColors.White, Ink, 1.2),
        ["axis"] = new(Stroke: Ink),
        ["grid"] = new(Stroke: Faint),
        ["grid fine"] = new(Stroke: Faint, Dash: [1, 3]),
        ["zero"] = new(Stroke: Line),
        ["cycle"] = new(Stroke: Soft, Dash: [5, 4]),
        ["band"] = new(Hatch: Glass, HatchWidth: 0.5),
        ["edge"] = new(Stroke: Glass, Width: 1.2),
        ["limit"] = new(Stroke: Stop, Width: 2.6),
        ["spread"] = new(Stroke: Ink, Width: 1.6),
        ["wedge"] = new(Ink),
        ["ink"] = new(Stroke: Ink, Width: 1.7),
        ["trace"] = new(Stroke: Ink, Width: 0.8),
        ["dot"] = new(Ink),
        ["sample"] = new(XColors.White, Glass, 1.4),
        ["ribbon"] = new(Wash),
        ["ribbon-edge"] = new(Stroke: Glass, Dash: [3, 3]),
        ["line"] = new(Stroke: Amber, Width: 1.4, Dash: [8, 5]),
        ["tick-end"] = new(Stroke: Ink, Width: 2.2),
        ["bar"] = new(Line),
        ["bar still"] = new(Stroke: Soft),
        ["bar loud"] = new(Ink),
        ["bar alarm"] = new(Stroke: Ink, Hatch: Ink, Pitch: 4, HatchWidth: 2.4),
        ["sign"] = new(Stroke: Ink, Width: 1.6),
    };

    private static readonly PdfLook Unknown = new(Stroke: Ink);

    /// <summary>Says whether a look is known.</summary>
    public static bool Knows(string look) => Shapes.ContainsKey(look);

    /// <summary>Gives a shape's look; a thin line for one that is not known, so that nothing is lost.</summary>
    public static PdfLook Of(string look) => Shapes.GetValueOrDefault(look, Unknown);

    /// <summary>Gives a text's colour.</summary>
    public static XColor Text(string look) => look.Contains("number", StringComparison.Ordinal) || look.Contains("unit", StringComparison.Ordinal) ? Soft : Ink;
}
