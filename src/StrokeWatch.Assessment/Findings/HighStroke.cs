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
            Rules.Voltage,
            "Look whether the tray runs empty and at full setting: the band holds for that only.",
            Rules.Isolate,
            "If the voltage is right, the machine has come nearer to the frequency at which it moves most (resonance): look for a cracked leaf and for a tray that was changed or lost weight.",
        ])
    {
        Plot = EvidencePlots.Strokes(report),
    };
}
