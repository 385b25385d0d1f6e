using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The stroke is above the limit: springs, clamps and core are being damaged.</summary>
internal sealed class OverStroke : IRule
{
    public string Id => "over-stroke";

    public Finding? Look(AssessmentReport report) => report.Stroke.Verdict != Verdict.OverStroke ? null : new(
        Id,
        0.95,
        [
            report.Stroke.Peak is { } peak
                ? $"The largest stroke of the tray's sensors is {BandJudge.Words(peak)}, their mean {BandJudge.Words(report.Stroke.Stroke)}; the over-stroke limit is {report.Feeder.Band.Limit}."
                : $"The stroke is {BandJudge.Words(report.Stroke.Stroke)}; the over-stroke limit is {report.Feeder.Band.Limit}.",
            .. Rules.OfSupply(report),
        ],
        [
            "Stop the feeder.",
            Rules.Voltage,
            Rules.Isolate,
            "Look for a cracked or missing leaf and for a tray that was exchanged or lost weight.",
        ])
    {
        Plot = EvidencePlots.Strokes(report),
    };
}
