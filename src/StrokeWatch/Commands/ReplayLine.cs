using System.CommandLine;
using System.Text;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Commands;

/// <summary>The command <c>replay</c>: the same measurement and assessment on captured files.</summary>
internal static class ReplayLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var captures = new Argument<string[]>("CAPTURE") { Description = "CSV, TSV or WAV files.", Arity = ArgumentArity.OneOrMore };
        var feeder = new Option<string>("--feeder") { Description = "The feeder file (TOML); where not given, NAME.feeder.toml beside the capture NAME, as the daemon puts one beside the waveforms of alarms." };
        var json = new Option<string?>("--json") { Description = "Write the results as JSON to a file, or to standard output with -." };
        var report = new Option<string?>("--report") { Description = "Write a page for people (HTML, self-contained) to a file." };
        var budget = new Option<bool>("--budget") { Description = "Print each stroke's uncertainty budget; the JSON document always holds it." };
        var voltage = Numbers.Positive("--supply-voltage-v", "The supply's true-rms voltage in V as read off a meter, where the capture holds none; wins over voltage_v in the feeder file.");
        var book = new Option<string?>("--book") { Description = "The machine book: what guided checks found since the day before the newest capture counts in what several captures point to." };
        var options = new CaptureArguments();
        var command = new Command("replay", "Measures captured files and says what is wrong.") { captures, feeder, json, report, budget, voltage, book };
        options.AddTo(command);
        command.SetAction(parsed =>
        {
            if (options.Read(parsed, out var error) is not { } capture)
            {
                surroundings.Error.WriteLine($"strokewatch replay: {error}");
                return CommandLine.Bad;
            }

            var wishes = new Wishes(parsed.GetValue(json), parsed.GetValue(report), parsed.GetValue(budget), parsed.GetValue(voltage), parsed.GetValue(book));
            return Run(parsed.GetValue(captures)!, parsed.GetValue(feeder), wishes, capture, surroundings);
        });
        return command;
    }

    private static int Run(string[] files, string? named, Wishes wishes, CaptureOptions options, Surroundings surroundings)
    {
        var (json, report, budget, voltage, book) = wishes;
        string? lacking = null;
        if ((named ?? FeederBeside.Find(files, out lacking)) is not { } feederFile)
        {
            surroundings.Error.WriteLine($"strokewatch replay: {lacking}");
            return CommandLine.Bad;
        }

        var read = FeederFile.Read(feederFile);
        if (read.Value is not { } feeder)
        {
            foreach (var error in read.Errors)
            {
                surroundings.Error.WriteLine(error);
            }

            return CommandLine.Bad;
        }

        if (files.FirstOrDefault(file => Path.GetExtension(file).Equals(".toml", StringComparison.OrdinalIgnoreCase)) is { } mistaken)
        {
            surroundings.Error.WriteLine($"{mistaken}: is a TOML file, not a capture; name a CSV, TSV or WAV file, and the feeder file after --feeder");
            return CommandLine.Bad;
        }

        if (voltage is { } entered)
        {
            feeder = feeder with { Supply = (feeder.Supply ?? new()) with { EnteredVolts = entered } };
        }

        options = SensorChannels.Wanted(feeder, options);
        if ((Misplaced("--report", report, [.. files, feederFile]) ?? Misplaced("--json", json, [.. files, feederFile]) ?? Twice(report, json)) is { } trouble)
        {
            surroundings.Error.WriteLine($"strokewatch replay: {trouble}");
            return CommandLine.Bad;
        }

        if (HistoryCheck.OfFiles(files, feederFile, feeder.Name) is { } mixed)
        {
            surroundings.Error.WriteLine(mixed);
            return CommandLine.Bad;
        }

        if (!Checks(book, feederFile, feeder.Name, surroundings, out var checks))
        {
            return CommandLine.Bad;
        }

        var replays = files.Select(file => Replay(file, feeder, options)).Select(replay => (Result: replay.Result with { Checks = checks }, replay.Repeatable)).ToList();
        var results = replays.Select(replay => replay.Result).ToList();
        if (HistoryCheck.OfResults(results) is { } muddled)
        {
            surroundings.Error.WriteLine(muddled);
            return CommandLine.Bad;
        }

        if (report is not null)
        {
            var page = ReportPage.Write([.. replays.Select(replay => Reported(replay.Result, replay.Repeatable, options))]);
            if (!Write("--report", report, "", stream => stream.Write(Encoding.UTF8.GetBytes(page)), surroundings.Error))
            {
                return CommandLine.Bad;
            }
        }

        if (json == "-")
        {
            ReplayJson.Write(surroundings.RawOutput, results);
            return Worst(results);
        }

        if (json is not null && !Write("--json", json, ", or - for standard output", stream => ReplayJson.Write(stream, results), surroundings.Error))
        {
            return CommandLine.Bad;
        }

        foreach (var result in results)
        {
            ReplayText.Write(surroundings.Output, result);
            if (budget)
            {
                BudgetText.Write(surroundings.Output, result.Report.Stroke);
            }
        }

        HistoryText.Write(surroundings.Output, results);
        foreach (var note in HistoryCheck.Notes(results))
        {
            surroundings.Output.WriteLine($"  order      {note}");
        }

        return Worst(results);
    }

    private static bool Write(string option, string path, string other, Action<Stream> write, TextWriter error)
    {
        try
        {
            using var stream = File.Create(path);
            write(stream);
            return true;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException)
        {
            error.WriteLine($"{option} {path}: cannot be written ({trouble.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name a file in a folder that is there{other}");
            return false;
        }
    }

    private static (ReplayResult Result, bool Repeatable) Replay(string file, FeederDescription feeder, CaptureOptions options)
    {
        using var source = CaptureFile.Open(file, options);
        return (Replayer.Run(file, source, feeder, new AlarmDelays()), source.Summary.Repeatable);
    }

    private static ReportedCapture Reported(ReplayResult result, bool repeatable, CaptureOptions options)
    {
        if (!repeatable || PortraitTaker.Choose(result.Report) is not { } window)
        {
            return new(result, PortraitTaker.Choose(result.Report), null, repeatable);
        }

        using var source = CaptureFile.Open(result.File, options);
        return new(result, window, PortraitTaker.Take(source, result, window), repeatable);
    }

    private static string? Misplaced(string option, string? path, IReadOnlyList<string> taken) => path switch
    {
        null or "" => null,
        "-" => option == "--report" ? "--report: a page goes to a file, not to standard output; write --report page.html" : null,
        _ => taken.Any(file => Path.GetFullPath(file) == Path.GetFullPath(path)) ? $"{option}: {path} is read by this very command; name another file" : null,
    };

    private static string? Twice(string? report, string? json) =>
        report is { Length: > 0 } && json is { Length: > 0 } && Path.GetFullPath(report) == Path.GetFullPath(json) ? $"--json: {json} is the page's file already; name another one" : null;

    /// <summary>Gives the worst of the captures' states; a cause that their history points to is a machine that is not well, however well each capture alone is.</summary>
    private static int Worst(IReadOnlyList<ReplayResult> results)
    {
        var worst = results.Max(Status);
        return worst == CommandLine.Well && Histories.Of(results) is { } history && HistoryRules.Look(history).Any(finding => finding.Id != HistoryRules.TooLittle)
            ? CommandLine.NotWell
            : worst;
    }

    private static int Status(ReplayResult result)
    {
        var report = result.Report;
        return report.Stroke is { Stroke: null, Verdict: not Verdict.OverStroke } ? CommandLine.NoStroke
            : report.Stroke.Verdict != Verdict.InBand || report.Strike.Found || report.Transitions.Count > 0 ? CommandLine.NotWell
            : CommandLine.Well;
    }

    /// <summary>Reads what guided checks found; false where the book cannot be read, which is then said.</summary>
    private static bool Checks(string? file, string feederFile, string feeder, Surroundings surroundings, out IReadOnlyList<BookCheckAnswer> checks)
    {
        IReadOnlyList<BookCheckAnswer> found = [];
        var status = file is null ? CommandLine.Well : BookAccess.Say(surroundings, () =>
        {
            using var book = BookAccess.OpenReader(file, feederFile, feeder);
            found = book.Checks.Since(DateTimeOffset.UnixEpoch);
            return CommandLine.Well;
        });
        checks = found;
        return status == CommandLine.Well;
    }

    /// <summary>Where the results are wanted: JSON, a page, the budget in the text; the voltage that was read off a meter; and the machine book.</summary>
    private sealed record Wishes(string? Json, string? Report, bool Budget, double? Volts, string? Book);
}
