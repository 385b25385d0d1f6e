using StrokeWatch.Reports.Pdf;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Commands;

/// <summary>What may be wrong with the use of <c>report</c>, before anything is read.</summary>
internal static class ReportUse
{
    private const int UsualDays = 30;
    private const int DayLetters = 10;

    /// <summary>Says whether a record goes to a PDF document.</summary>
    public static bool IsPdf(string target) => Path.GetExtension(target).Equals(".pdf", StringComparison.OrdinalIgnoreCase);

    /// <summary>Gives what is wrong, in one line; null where nothing is.</summary>
    public static string? Trouble(ReportCommand command)
    {
        var target = command.Target;
        if (target == "-")
        {
            return "--out: a record goes to a file, not to standard output; write --out record.pdf";
        }

        if (!IsPdf(target) && Path.GetExtension(target).ToUpperInvariant() is not (".HTML" or ".HTM"))
        {
            return $"--out {target}: the name's end says the form; write .html or .pdf";
        }

        IEnumerable<string?> inputs = [command.FeederFile, command.Trials, command.Store, command.Book, .. command.Captures];
        if (inputs.Any(input => input is not null && Path.GetFullPath(input) == Path.GetFullPath(target)))
        {
            return $"--out: {target} is read by this very command; name another file";
        }

        if (command.Captures.FirstOrDefault(file => Path.GetExtension(file).Equals(".toml", StringComparison.OrdinalIgnoreCase)) is { } mistaken)
        {
            return $"--capture {mistaken}: is a TOML file, not a capture; name a CSV, TSV or WAV file";
        }

        if (command.Store is null && (command.From ?? command.To) is not null)
        {
            return "--from and --to: there is no store whose period they could name; add --store FILE";
        }

        return command.Paper is null || command.Paper == PdfPaper.A4.Name || command.Paper == PdfPaper.Letter.Name
            ? null
            : $"--paper: '{command.Paper}' is not known; write {PdfPaper.A4.Name} or {PdfPaper.Letter.Name}";
    }

    /// <summary>Reads the period; false and one line where it is none.</summary>
    public static bool Period(ReportCommand command, DateTimeOffset now, out (DateTimeOffset From, DateTimeOffset To) period, out string? trouble)
    {
        (period, trouble) = (default, null);
        var to = Read("--to", command.To, ref trouble) ?? now;
        if (command.To?.Trim().Length == DayLetters)
        {
            to = to.AddDays(1);
        }

        var from = Read("--from", command.From, ref trouble) ?? to.AddDays(-UsualDays);
        if (trouble is null && from >= to)
        {
            trouble = $"--from {RecordedDate.Text(from)} is not before --to {RecordedDate.Text(to)}; name an earlier start";
        }

        period = (from, to);
        return trouble is null;
    }

    private static DateTimeOffset? Read(string option, string? text, ref string? trouble)
    {
        if (text is null)
        {
            return null;
        }

        var date = RecordedDate.Parse(text);
        if (date is null)
        {
            trouble ??= $"{option}: '{text}' is no date; write it as 2026-03-01 or 2026-03-01T08:00Z";
        }

        return date;
    }
}
