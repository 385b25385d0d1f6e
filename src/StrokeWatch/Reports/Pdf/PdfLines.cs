using PdfSharp.Drawing;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Breaks text into lines.</summary>
internal static class PdfLines
{
    /// <summary>Gives the lines of a text in a width, at least one; what is longer than a line without a space is broken where it must be.</summary>
    public static IReadOnlyList<string> Wrap(PdfFlow flow, string text, XFont font, double width)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in Words(flow.Fonts.Shown(text)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (flow.Measure(longer, font) <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
            {
                lines.Add(line);
            }

            line = word;
            while (flow.Measure(line, font) > width && line.Length > 1)
            {
                var fits = Fitting(flow, line, font, width);
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }

        if (line.Length > 0 || lines.Count == 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    /// <summary>Gives the width of the longest word of a text.</summary>
    public static double Longest(PdfFlow flow, string text, XFont font) => Words(flow.Fonts.Shown(text)).Select(word => flow.Measure(word, font)).DefaultIfEmpty(0).Max();

    private static string[] Words(string text) => text.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static int Fitting(PdfFlow flow, string line, XFont font, double width)
    {
        var fits = 1;
        while (fits + 1 < line.Length && flow.Measure(line[..(fits + 1)], font) <= width)
        {
            fits++;
        }

        // The halves of a surrogate pair stay together.
        return fits > 1 && char.IsHighSurrogate(line[fits - 1]) ? fits - 1 : fits;
    }
}
