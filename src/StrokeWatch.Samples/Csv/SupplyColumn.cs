using System.Text.RegularExpressions;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>Knows a column of the supply's voltage by its name, which must say its unit: <c>supply_v</c>, <c>u_mv</c>, <c>Voltage (kV)</c>.</summary>
internal static partial class SupplyColumn
{
    /// <summary>Gives the factor to volts that a header cell states; null where it names no voltage, or no unit of one.</summary>
    public static double? Scale(string cell) => Name().Match(cell.Trim().Trim('"').Trim().TrimStart('#').Trim()) is { Success: true } match
        ? match.Groups["unit"].Value.ToLowerInvariant() switch
        {
            "mv" => 1e-3,
            "kv" => 1e3,
            _ => 1,
        }
        : null;

    /// <summary>Gives the factor to volts that a column's header states; 1 where it states none.</summary>
    public static double Scale(HeaderRows header, int column) => column >= 0 && column < header.Names.Count ? Scale(header.Names[column].Text) ?? 1 : 1;

    /// <summary>Finds the column from 0: the one that the user says, or the only one that is named so; -1 where there is none.</summary>
    public static int Find(CsvTable table, CaptureOptions options, HeaderRows header, List<string> guesses)
    {
        if (options.SupplyChannel is { } said)
        {
            return said - 1;
        }

        List<int> named = [.. Enumerable.Range(0, Math.Min(table.Columns, header.Names.Count)).Where(i => table.Sample.IsNumeric(i) && Scale(header.Names[i].Text) is not null)];
        if (named.Count > 1)
        {
            guesses.Add(FormattableString.Invariant(
                $"columns {named[0] + 1} and {named[1] + 1} are both named after a voltage, so neither was taken for the supply's; say which with --supply-channel"));
        }

        return named.Count == 1 ? named[0] : -1;
    }

    /// <summary>Takes the column that was found; -1 where it stands for something else already, an error where the user says that it is the supply's all the same.</summary>
    /// <param name="column">The column from 0.</param>
    /// <param name="other">What else it was taken for; null for nothing.</param>
    /// <param name="table">The table.</param>
    /// <param name="options">What the user says.</param>
    /// <param name="bytes">The capture, which error lines name.</param>
    public static int Take(int column, string? other, CsvTable table, CaptureOptions options, CaptureBytes bytes) =>
        options.SupplyChannel is not { } said ? (other is null ? column : -1)
        : said > table.Columns ? throw bytes.Error(FormattableString.Invariant($"has {table.Columns} columns; --supply-channel says {said}, name one of them"))
        : other is not null ? throw bytes.Error(FormattableString.Invariant($"column {said} is taken for {other}, and by --supply-channel for the supply's voltage; name each column once"))
        : table.Sample.HasNumbers(column) ? column
        : throw bytes.Error(FormattableString.Invariant($"column {said} holds no numbers in the first {table.Sample.Rows} rows; choose another with --supply-channel"));

    [GeneratedRegex(@"^(?:u|supply|mains|line|coil|(?:supply|mains|line|coil)[ _-]?voltage|voltage)(?:[ _-]*[\[({]\s*(?<unit>m?v|kv|volts?)\s*[\])}]|[ _-]+(?<unit>m?v|kv|volts?))$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Name();
}
