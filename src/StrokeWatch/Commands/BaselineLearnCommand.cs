using System.Globalization;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>The command <c>baseline learn</c>: what a healthy feeder is, from captures of it.</summary>
internal sealed class BaselineLearnCommand
{
    private const int Fewest = 3;
    private const int Most = 512;

    /// <summary>Gets the captures.</summary>
    public required IReadOnlyList<string> Captures { get; init; }

    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the file of baselines, if given.</summary>
    public string? Target { get; init; }

    /// <summary>Gets why the version is made, if given.</summary>
    public string? Note { get; init; }

    /// <summary>Gets what the captures do not say.</summary>
    public required CaptureOptions Options { get; init; }

    /// <summary>Runs; 1 where a capture was left out because the feeder was not well in it, 3 where too few gave a stroke.</summary>
    public int Run(Surroundings surroundings)
    {
        if (BaselineOutcome.Feeder(FeederFile, surroundings) is not { } feeder)
        {
            return CommandLine.Bad;
        }

        if (Captures.Count is < Fewest or > Most)
        {
            surroundings.Error.WriteLine(Say($"strokewatch baseline learn: {Counted.Of(Captures.Count, "capture")} {(Captures.Count == 1 ? "is" : "are")} given; a spread needs {Fewest} or more, and {Most} are the most"));
            return CommandLine.Bad;
        }

        var options = SensorChannels.Wanted(feeder, Options);
        var all = Captures.Select(file => Replay(file, feeder, options)).OrderBy(replay => replay.Date?.Recorded).ThenBy(replay => replay.File, StringComparer.Ordinal).ToList();
        var used = new List<ReplayResult>();
        bool unwell = false, silent = false;
        foreach (var replay in all)
        {
            var (reason, alarm) = Refusal(replay, used.LastOrDefault());
            if (reason is null)
            {
                used.Add(replay);
                continue;
            }

            unwell |= alarm;
            silent |= replay.Report.Stroke.Stroke is null;
            surroundings.Error.WriteLine($"{replay.File}: left out: {reason}");
        }

        if (used.Count < Fewest)
        {
            surroundings.Error.WriteLine(Say($"strokewatch baseline learn: {used.Count} of {all.Count} captures can be used; a spread needs {Fewest} or more: record the healthy feeder again"));
            return unwell ? CommandLine.NotWell : silent ? CommandLine.NoStroke : CommandLine.Bad;
        }

        var baseline = Learn(used) with { Made = surroundings.Time.GetUtcNow(), Note = Note };
        if (!BaselineOutcome.Add(Target ?? BaselineFile.Beside(FeederFile), baseline, surroundings))
        {
            return CommandLine.Bad;
        }

        Explain(used, surroundings);
        return unwell ? CommandLine.NotWell : CommandLine.Well;
    }

    /// <summary>All captures that a person chose are enough; of features that come seldom three are.</summary>
    private static Baseline Learn(List<ReplayResult> used)
    {
        var learner = new BaselineLearner(new() { Enough = used.Count, Fewest = Fewest, Shortest = TimeSpan.Zero, Longest = TimeSpan.Zero });
        foreach (var replay in used)
        {
            _ = learner.Offer(replay.Date!.Value.Recorded, BaselineReadings.Of(replay.Features), alarm: false);
        }

        return learner.Result ?? throw new InvalidOperationException($"The learner has not ended: {learner.Progress()}.");
    }

    private static void Explain(List<ReplayResult> used, Surroundings surroundings)
    {
        var usual = new BaselineSettings().Enough;
        if (used.Count < usual)
        {
            var percent = 100 / Math.Sqrt(2 * (used.Count - 1));
            surroundings.Output.WriteLine(Say($"  {used.Count} captures tell each spread within {percent:0} % (k = 1); {usual} captures within 13 %: with few, only larger changes can be told"));
        }

        if (used.Count(replay => replay.Date!.Value.Assumed) is > 0 and var assumed)
        {
            surroundings.Output.WriteLine(Say($"  the dates of {Counted.Of(assumed, "capture")} are those of their files, which copying may have changed"));
        }
    }

    private static (string? Reason, bool Alarm) Refusal(ReplayResult replay, ReplayResult? before)
    {
        var report = replay.Report;
        var alarms = report.Transitions.Where(transition => transition.Raised).Select(transition => Names.Of(transition.Kind)).Distinct().ToList();
        return alarms.Count > 0 ? ($"an alarm stood in it ({string.Join(", ", alarms)})", true)
            : report.Strike.Found ? ("armature strike was heard in it", true)
            : report.Stroke.Stroke is null ? ($"it has no stroke: {report.Stroke.Reason}", false)
            : report.Stroke.Verdict != Verdict.InBand ? ($"the stroke is not in its band ({Names.Of(report.Stroke.Verdict)})", true)
            : replay.Date is not { } date ? ("nothing says when it was recorded; give a file with a date in it or in its name", false)
            : before is not null && date.Recorded <= before.Date!.Value.Recorded ? ($"it has the same date as {before.File}; a capture counts once", false)
            : (null, false);
    }

    private static ReplayResult Replay(string file, FeederDescription feeder, CaptureOptions options)
    {
        using var source = CaptureFile.Open(file, options);
        return Replayer.Run(file, source, feeder, new AlarmDelays());
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
