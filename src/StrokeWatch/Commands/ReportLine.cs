using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>report</c>: a dated record of a machine, as a page or as a PDF document.</summary>
internal static class ReportLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var feeder = TuneLine.Feeder();
        var target = new Option<string>("--out") { Description = "Where the record goes: NAME.html (prints well on A4 and Letter) or NAME.pdf.", Required = true };
        var trials = new Option<string?>("--trials") { Description = "The tuning trials (TOML)." };
        var captures = new Option<string[]>("--capture") { Description = "A capture; the newest is the final reading. Give the option once for each.", DefaultValueFactory = _ => [] };
        var store = new Option<string?>("--store") { Description = "The daemon's database: stroke and alarms over the period." };
        var book = BookLine.Book();
        var from = new Option<string?>("--from") { Description = "Start of the period, as in 2026-03-01; 30 days before its end where not given." };
        var to = new Option<string?>("--to") { Description = "End of the period; a day without a time counts whole. Now where not given." };
        var who = new Option<string?>("--who") { Description = "Who makes the record." };
        var paper = new Option<string?>("--paper") { Description = "Paper of a PDF document: a4 or letter; a4 where not given." };
        var options = new CaptureArguments();
        var command = new Command("report", "Writes a dated record of a machine.") { feeder, target, trials, captures, store, book, from, to, who, paper };
        options.AddTo(command);
        command.SetAction(parsed =>
        {
            if (options.Read(parsed, out var error) is not { } capture)
            {
                surroundings.Error.WriteLine($"strokewatch report: {error}");
                return CommandLine.Bad;
            }

            return new ReportCommand
            {
                FeederFile = parsed.GetValue(feeder)!,
                Target = parsed.GetValue(target)!,
                Trials = parsed.GetValue(trials),
                Captures = parsed.GetValue(captures)!,
                Store = parsed.GetValue(store),
                Book = parsed.GetValue(book),
                From = parsed.GetValue(from),
                To = parsed.GetValue(to),
                Who = parsed.GetValue(who),
                Paper = parsed.GetValue(paper),
                Options = capture,
            }.Run(surroundings);
        });
        return command;
    }
}
