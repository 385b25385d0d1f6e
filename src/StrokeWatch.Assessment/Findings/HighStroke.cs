using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The stroke is above the band but below the limit.</summary>
internal sealed class HighStroke : IRule
{
    public string Id => "high-stroke";

    public Finding? Look(AssessmentReport report) => report.Stroke.Verdict != Verdict.High ? null : new(
        Id,
        0.9,
        [$"The stroke is {BandJudge.Words(report.Stroke.Stroke)}; the top of the band is {report.Feeder.Band.High}.", .. Rules.OfSupply(report)],
        [
            "Compare the supply voltage at the controller with the nameplate; compare the empty tray at full voltage only.",
            "If the voltage is right, the machine has come nearer to resonance: plan a stop to look at leaves and tray.",
        ]);
}
