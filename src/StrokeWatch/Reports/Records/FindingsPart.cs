using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on what was found: in the final reading, over several captures, and by the daemon in the period.</summary>
internal static class FindingsPart
{
    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        var blocks = new List<RecordBlock>();
        if (input.Final is { } final)
        {
            blocks.AddRange(final.Findings.Count == 0
                ? [new RecordText("In the final reading no rule found anything wrong.")]
                : final.Findings.SelectMany(finding => One($"{finding.Id}, confidence {Figure.Of(100 * finding.Confidence, 0)} %", finding.Because, finding.CheckFirst, [])));
        }

        var found = Found(input);
        blocks.AddRange(OverCaptures(input, found));
        blocks.AddRange(InPeriod(input));
        if (blocks.Count == 0)
        {
            blocks.Add(new RecordText("Nothing was looked at that findings could come from: neither a capture nor a store was given."));
        }

        return new(ReportWords.FindingsHeading, blocks);
    }

    /// <summary>Gives what guided checks found in the day before the record; older findings are of a machine that has been seen to since.</summary>
    private static IReadOnlyList<CheckFound> Found(RecordInput input) =>
        [.. (input.Book?.Checks ?? []).Where(check => check.Utc >= input.Now.AddDays(-1)).Select(check => new CheckFound(check.Check, check.Answer))];

    private static IEnumerable<RecordBlock> OverCaptures(RecordInput input, IReadOnlyList<CheckFound> found)
    {
        if (Histories.Of(input.Captures) is not { } history)
        {
            foreach (var block in HistoryRules.LookAt(found).SelectMany(Cause).Prepend(found.Count > 0 ? new RecordText("What guided checks found in the last day points to, in this order:") : null).OfType<RecordBlock>())
            {
                yield return block;
            }

            yield break;
        }

        yield return new RecordText("Over the captures", RecordTextKind.Heading);
        yield return new RecordTable(
            ["Recorded", "Capture", "Stroke", "Natural frequency, Hz"],
            [.. history.Points.Select(point => (IReadOnlyList<string>)
            [
                RecordDates.Minute(point.Recorded) + (point.DateAssumed ? " (assumed)" : ""), point.Capture,
                point.Features.Stroke is { } stroke ? Figure.Both(stroke) : ReportWords.NoStroke, point.Features.NaturalHz is { } hertz ? Figure.Of(hertz, 2) : "not read",
            ])]);
        var findings = HistoryRules.Look(history);
        if (findings.Count == 0)
        {
            yield return new RecordText($"Over these captures: {ReportWords.AsItWas}");
        }

        foreach (var block in findings.SelectMany(Cause))
        {
            yield return block;
        }
    }

    private static IEnumerable<RecordBlock> Cause(CauseFinding finding) =>
        One($"{finding.Words} ({finding.Id}, confidence {Figure.Of(100 * finding.Confidence, 0)} %)", finding.Because, finding.CheckFirst, [finding.Confirm, finding.TellApart]);

    private static IEnumerable<RecordBlock> InPeriod(RecordInput input)
    {
        if (input.History is not { } history)
        {
            yield break;
        }

        if (history.Findings.Count == 0)
        {
            yield return new RecordText("The daemon raised and cleared no finding in the period.");
        }

        foreach (var stored in history.Findings.Where(stored => stored.Transition.Raised))
        {
            var (finding, at) = (stored.Transition.Finding, stored.Transition.At);
            var cleared = history.Findings.FirstOrDefault(other => !other.Transition.Raised && other.Id > stored.Id && other.Transition.Finding.Id == finding.Id);
            var sure = finding.Confidence is { } share ? $", confidence {Figure.Of(100 * share, 0)} %" : "";
            var until = cleared is null ? "stands" : $"cleared {RecordDates.Minute(cleared.Transition.At)}";
            foreach (var block in One($"{finding.Words} ({finding.Id}{sure}; raised {RecordDates.Minute(at)}, {until})", finding.Because, finding.CheckFirst, [finding.Confirm, finding.TellApart]))
            {
                yield return block;
            }
        }
    }

    private static IEnumerable<RecordBlock> One(string heading, IReadOnlyList<string> because, IReadOnlyList<string> checks, IReadOnlyList<string?> more)
    {
        yield return new RecordText(heading, RecordTextKind.Heading);
        foreach (var sentence in because)
        {
            yield return new RecordText(sentence);
        }

        yield return new RecordText(ReportWords.CheckFirst, RecordTextKind.Detail);
        yield return new RecordList(checks);
        foreach (var sentence in more.OfType<string>().Where(sentence => sentence.Length > 0))
        {
            yield return new RecordText(sentence);
        }
    }
}
