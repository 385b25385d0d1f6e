using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Session;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Commands;

/// <summary>The command <c>tune checks</c>: guided checks at the machine, beside what captures show.</summary>
internal static class TuneChecksCommand
{
    /// <summary>Runs; 1 where a cause is named at the end.</summary>
    public static int Run(string feederFile, string? bookFile, IReadOnlyList<string> captures, string? who, Surroundings surroundings)
    {
        if (BaselineOutcome.Feeder(feederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        var history = History(captures, feeder, surroundings);
        try
        {
            using var book = BookAccess.Open(bookFile, feederFile, feeder.Name, surroundings.Time);
            var keeper = new ChecksKeeper(book, surroundings.Time.GetUtcNow());
            var tools = new SessionTools
            {
                Time = surroundings.Time,
                Measure = _ => (null, SessionWords.NothingMeasured),
                Learn = _ => (null, [], SessionWords.NothingMeasured),
            };
            var state = new SessionState { Step = SessionSteps.Checks, Who = who, Rear = feeder.Springs?.Rear ?? [new(1e-3, 1)] };
            var answers = SessionInput.Answers(surroundings);
            _ = new SessionTerminal(surroundings.Output, answers, surroundings.Terminal) { Ends = true }.Run(new(feeder, keeper, tools, state));
            var found = keeper.Found;
            surroundings.Output.WriteLine();
            foreach (var line in CheckWords.Standing(found, history))
            {
                surroundings.Output.WriteLine(line);
            }

            var causes = history is null ? HistoryRules.LookAt(found) : HistoryRules.Look(history with { Found = found });
            return causes.Any(cause => cause.Id != HistoryRules.TooLittle) ? CommandLine.NotWell : CommandLine.Well;
        }
        catch (BookException trouble)
        {
            surroundings.Error.WriteLine(trouble.Message);
            return CommandLine.Bad;
        }
    }

    /// <summary>Replays the captures and shows what they say by themselves.</summary>
    private static HistoryReport? History(IReadOnlyList<string> captures, FeederDescription feeder, Surroundings surroundings)
    {
        var results = new List<ReplayResult>();
        foreach (var file in captures)
        {
            using var source = CaptureFile.Open(file, SensorChannels.Wanted(feeder));
            var result = Replayer.Run(file, source, feeder, new AlarmDelays());
            ReplayText.Write(surroundings.Output, result);
            results.Add(result);
        }

        return Histories.Of(results);
    }
}
