using PdfSharp.Drawing;
using StrokeWatch.Reports.Records;

namespace StrokeWatch.Reports.Pdf;

/// <summary>A table: columns as wide as they need, no row cut by a page's end, the head again on every page.</summary>
internal sealed class PdfTable
{
    private const double Size = 8, Gap = 9, Above = 2.5, Under = 3.5;

    private readonly PdfFlow flow;
    private readonly RecordTable table;
    private readonly double[] widths;

    /// <summary>Measures a table.</summary>
    public PdfTable(PdfFlow flow, RecordTable table)
    {
        (this.flow, this.table) = (flow, table);
        widths = Widths();
    }

    /// <summary>Gets the height of the head and the first row.</summary>
    public double Beginning => Height(table.Columns, true) + (table.Rows.Count > 0 ? Height(table.Rows[0], table.Sums >= table.Rows.Count) : 0);

    /// <summary>Writes it.</summary>
    public void Write()
    {
        flow.Need(Beginning);
        Row(table.Columns, true, 1.2, PdfLooks.Ink);
        foreach (var (index, row) in table.Rows.Index())
        {
            var sum = index >= table.Rows.Count - table.Sums;
            if (flow.Need(Height(row, sum)))
            {
                Row(table.Columns, true, 1.2, PdfLooks.Ink);
            }

            Row(row, sum, 0.5, PdfLooks.Line);
        }

        flow.Y += 6;
    }

    private void Row(IReadOnlyList<string> cells, bool bold, double line, XColor colour)
    {
        var (font, leading, height) = (flow.Fonts.Of(Size, bold), PdfFlow.Leading(Size), Height(cells, bold));
        var x = PdfFlow.Margin;
        for (var column = 0; column < cells.Count; column++)
        {
            var top = flow.Y + Above;
            foreach (var text in PdfLines.Wrap(flow, cells[column], font, widths[column]))
            {
                flow.Line(text, font, PdfLooks.Ink, x, top);
                top += leading;
            }

            x += widths[column] + Gap;
        }

        flow.Y += height;
        flow.Rule(PdfFlow.Margin, PdfFlow.Margin + flow.Width, flow.Y, line, colour);
    }

    private double Height(IReadOnlyList<string> cells, bool bold)
    {
        var font = flow.Fonts.Of(Size, bold);
        var most = 1;
        for (var column = 0; column < cells.Count; column++)
        {
            most = Math.Max(most, PdfLines.Wrap(flow, cells[column], font, widths[column]).Count);
        }

        return most * PdfFlow.Leading(Size) + Above + Under;
    }

    /// <summary>Gives each column the width of its longest word, and shares out the rest by what each would take in one line.</summary>
    private double[] Widths()
    {
        var room = flow.Width - Gap * (table.Columns.Count - 1);
        var (bold, plain) = (flow.Fonts.Of(Size, true), flow.Fonts.Of(Size));
        var least = new double[table.Columns.Count];
        var whole = new double[table.Columns.Count];
        for (var column = 0; column < least.Length; column++)
        {
            foreach (var (text, font) in table.Rows.Index().Select(row => (row.Item[column], row.Index >= table.Rows.Count - table.Sums ? bold : plain)).Prepend((table.Columns[column], bold)))
            {
                least[column] = Math.Max(least[column], PdfLines.Longest(flow, text, font) + 0.5);
                whole[column] = Math.Max(whole[column], flow.Measure(flow.Fonts.Shown(text), font) + 0.5);
            }
        }

        var (needed, wished) = (least.Sum(), whole.Sum());
        return wished <= room ? [.. whole.Select(width => width + (room - wished) / whole.Length)]
            : needed >= room ? [.. least.Select(width => width * room / needed)]
            : [.. least.Zip(whole, (few, all) => few + (all - few) * (room - needed) / (wished - needed))];
    }
}
