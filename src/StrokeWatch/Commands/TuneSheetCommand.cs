using System.Text;
using StrokeWatch.Reports.Sheets;

namespace StrokeWatch.Commands;

/// <summary>Writes one sheet of a feeder's physics: text, JSON, page.</summary>
internal static class TuneSheetCommand
{
    /// <summary>Writes the sheet where it is wanted.</summary>
    public static int Run(Sheet sheet, string? json, string? report, IReadOnlyList<string?> inputs, Surroundings surroundings)
    {
        if (report == "-" || inputs.Any(input => input is not null && report is not null && Path.GetFullPath(input) == Path.GetFullPath(report)))
        {
            surroundings.Error.WriteLine(report == "-"
                ? $"strokewatch tune {sheet.Name}: --report: a page goes to a file, not to standard output; write --report page.html"
                : $"strokewatch tune {sheet.Name}: --report: {report} is read by this very command; name another file");
            return CommandLine.Bad;
        }

        if (report is not null && !ResultFile.Write("--report", report, stream => stream.Write(Encoding.UTF8.GetBytes(SheetPage.Write(sheet))), surroundings.Error))
        {
            return CommandLine.Bad;
        }

        if (json == "-")
        {
            SheetJson.Write(surroundings.RawOutput, sheet);
            return CommandLine.Well;
        }

        if (json is not null && !ResultFile.Write("--json", json, stream => SheetJson.Write(stream, sheet), surroundings.Error))
        {
            return CommandLine.Bad;
        }

        SheetText.Write(surroundings.Output, sheet);
        return CommandLine.Well;
    }
}
