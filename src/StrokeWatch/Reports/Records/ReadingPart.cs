using StrokeWatch.Assessment;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>The sections on the final reading: on a rule, over time, and where its uncertainty comes from.</summary>
internal static class ReadingPart
{
    /// <summary>Makes the section on the reading.</summary>
    public static RecordSection Make(RecordInput input, FinalReading reading)
    {
        var blocks = new List<RecordBlock> { new RecordText(reading.Source) };
        if (input.Final is { } capture)
        {
            blocks.Add(new RecordPicture(
                surface => RuleDrawing.Draw(surface, capture.Report, RecordPicture.Width),
                "The stroke on a rule, millimetres above, inches below. Hatched: the band. Thick line: the over-stroke limit. Bar over the wedge: expanded uncertainty, k = 2."));
            blocks.Add(new RecordFacts([.. Facts(capture)]));
            blocks.AddRange(Sensors(capture));
            if (capture.Report.Windows.Count > 0)
            {
                blocks.Add(new RecordPicture(
                    surface => StrokePlot.Draw(surface, capture, RecordPicture.Width),
                    capture.Report.Stroke.Stroke is null ? ReportWords.NothingCounted : ReportWords.StrokeCaption(capture.Report.Windows.Count > StrokeTrace.MostWindows)));
            }
        }

        return new("Final reading", blocks);
    }

    /// <summary>Makes the section on the uncertainty.</summary>
    public static RecordSection Budget(RecordInput input)
    {
        if (input.Final?.Report.Stroke is not { Stroke: { } stroke, Budget: { } budget })
        {
            return new(ReportWords.BudgetHeading, [new RecordText(input.Final is null ? "Only a capture tells where the uncertainty comes from, and none was given." : ReportWords.NoBudget)]);
        }

        return new(ReportWords.BudgetHeading,
        [
            new RecordTable(
                ReportWords.BudgetColumns,
                [
                    .. budget.Components.Select(part => Row(ReportWords.Contribution(part.Name), part.Basis, part.Contribution, stroke, $"{Figure.Of(100 * budget.Share(part), 1)}\u00A0%")),
                    Row(ReportWords.Combined, ReportWords.RootOfSquares, budget.Combined, stroke, ""),
                    Row(ReportWords.Expanded, ReportWords.Covers(budget.Coverage(StrokeBudget.CoverageFactor)), StrokeBudget.CoverageFactor * budget.Combined, stroke, ""),
                ],
                2),
            new RecordText($"{Largest(budget)} By the Guide to the expression of uncertainty in measurement, JCGM 100:2008.", RecordTextKind.Detail),
        ]);
    }

    private static IEnumerable<(string Name, string Value)> Facts(ReplayResult capture)
    {
        var report = capture.Report;
        if (report.Stroke is { Least: { } least, Most: { } most })
        {
            yield return ("Windows", $"{ReportWords.MedianOf(report.Windows.Count(window => StrokeTrace.Counts(window)), report.Windows.Count)} {ReportWords.Range(least, most)}");
        }

        if (report.Stroke.LineAngleDegrees is { } angle)
        {
            yield return ("Line of action", ReportWords.Line(angle, report.Stroke.EllipseRatio));
        }

        yield return ("At full voltage", report.Supply is { FullStroke: { } full, FullUncertainty: { } own }
            ? $"{Figure.Both(full)} {ReportWords.Expand(own)}"
            : $"not known{(report.Supply?.Reason is { } why ? $": {why}" : ": the supply's voltage was not measured")}");
        yield return ("Free vibration", report.Decays.Count > 0 ? TransientWords.Of(report.Decays[^1]) : "not read: the feeder was not switched off in this capture in a way that lets its free decay be read");
        yield return ("Alarms", Alarms(capture));
        yield return ("Capture", $"{Figure.Of(capture.DurationSeconds, 1)} s, {Figure.Count(capture.Counters.Samples)} samples at {Figure.Of(capture.RateHz, 1)} Hz, {Figure.Count(capture.Counters.Gaps)} gaps, {Figure.Count(report.ClippedSamples)} clipped");
        if (capture.Contributions.SensitivityAssumed && report.Stroke.Stroke is not null)
        {
            yield return ("Assumed", Assumptions.Of(report.Feeder));
        }
    }

    private static string Alarms(ReplayResult capture) => string.Join(" ", ReplayJson.Pairs(capture.Report.Transitions).Select(pair =>
            $"{Names.Of(pair.Raised.Kind)}, {Figure.Of(pair.Raised.AtSeconds, 1)} s to {(pair.Cleared is { } end ? $"{Figure.Of(end.AtSeconds, 1)} s" : "the end")}: {pair.Raised.Words}")
        .DefaultIfEmpty("none in this capture"));

    private static IEnumerable<RecordBlock> Sensors(ReplayResult capture)
    {
        if (capture.Report.Sensors is not { } several)
        {
            yield break;
        }

        yield return new RecordText(SensorsWords.Heading, RecordTextKind.Heading);
        yield return new RecordTable(SensorsWords.SensorColumns, [.. several.Sensors.Select(sensor => (IReadOnlyList<string>)
            [SensorsWords.Place(sensor), SensorsWords.Stroke(sensor), SensorsWords.Phase(sensor), SensorsWords.Angle(sensor), Figure.Count(sensor.WindowsGood)])]);
        yield return new RecordTable(SensorsWords.SpreadColumns,
        [
            [SensorsWords.FrontRear, SensorsWords.Difference(several.FrontRear), SensorsWords.Share(several.FrontRear)],
            [SensorsWords.LeftRight, SensorsWords.Difference(several.LeftRight), SensorsWords.Share(several.LeftRight)],
            [SensorsWords.TrayBody, SensorsWords.Relative(several.Relative), ""],
        ]);
        yield return new RecordText(SensorsWords.Assumed, RecordTextKind.Detail);
    }

    private static string Largest(UncertaintyBudget budget)
    {
        var largest = budget.Components.MaxBy(budget.Share)!;
        return $"The largest part is {ReportWords.Contribution(largest.Name).ToLowerInvariant()}, {Figure.Of(100 * budget.Share(largest), 1)} % of the variance.";
    }

    private static IReadOnlyList<string> Row(string name, string basis, double size, double stroke, string share) =>
        [name, basis, Figure.Of(1e3 * size, 4), Figure.Of(100 * size / stroke, 3), share];
}
