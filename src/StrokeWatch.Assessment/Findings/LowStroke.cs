using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The stroke is below the band.</summary>
internal sealed class LowStroke : IRule
{
    public string Id => "low-stroke";

    public Finding? Look(AssessmentReport report) => report.Stroke.Verdict != Verdict.Low ? null : new(
        Id,
        0.9,
        [$"The stroke is {BandJudge.Words(report.Stroke.Stroke)}; the bottom of the band is {report.Feeder.Band.Low}.", .. Rules.OfSupply(report)],
        [
            "Look, without touching, for debris on or under the tray and for a tray that rubs on chute or housing.",
            Rules.Voltage,
            Rules.Isolate,
            "Look for build-up, cracks in tray and welds, and loose or cracked leaves.",
        ])
    {
        Plot = EvidencePlots.Strokes(report),
    };
}
