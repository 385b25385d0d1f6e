using System.Globalization;

namespace StrokeWatch.Reports.Sheets;

/// <summary>Writes a sheet for people, the same under every culture.</summary>
internal static class SheetText
{
    /// <summary>Writes it.</summary>
    public static void Write(TextWriter writer, Sheet sheet)
    {
        writer.WriteLine($"{sheet.Title}, {sheet.Feeder}");
        writer.WriteLine($"  {"rests on",-34} {sheet.From}");
        foreach (var fact in sheet.Facts)
        {
            writer.WriteLine($"  {fact.Name,-34} {fact.Words}");
        }

        foreach (var table in sheet.Tables)
        {
            var first = Math.Max(table.Columns[0].Name.Length, table.Rows.Select(row => row.Words.Length).DefaultIfEmpty(0).Max());
            writer.WriteLine($"  {table.Columns[0].Name.PadRight(first)}{string.Concat(table.Columns.Skip(1).Select(column => "  " + column.Name))}");
            foreach (var (words, numbers) in table.Rows)
            {
                writer.WriteLine($"  {words.PadRight(first)}{string.Concat(numbers.Select((number, i) => "  " + Cell(number, table.Columns[i + 1].Digits).PadLeft(table.Columns[i + 1].Name.Length)))}");
            }
        }

        foreach (var note in sheet.Notes)
        {
            writer.WriteLine($"  note  {note}");
        }
    }

    /// <summary>Writes a number of a table.</summary>
    internal static string Cell(double? number, int digits) => number is { } value && double.IsFinite(value) ? value.ToString($"F{digits}", CultureInfo.InvariantCulture) : "-";
}
