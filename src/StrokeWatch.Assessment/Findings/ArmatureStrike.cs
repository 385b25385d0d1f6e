using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The armature hits the core: a short contact at the same place of each cycle, of every second or third, or irregularly.</summary>
internal sealed class ArmatureStrike : IRule
{
    public string Id => "armature-strike";

    public Finding? Look(AssessmentReport report) => !report.Strike.Found ? null : new(
        Id,
        Math.Clamp(0.85 + (0.1 * (report.Strike.ScoreMax ?? 0)), 0.85, 0.98),
        [
            string.Create(CultureInfo.InvariantCulture, $"A short knock comes back {Rhythm(report.Strike.Every)} in {Counted.Of(report.Strike.Windows, "window")}, the first at {report.Strike.FirstSeconds:0.0} s."),
            string.Create(CultureInfo.InvariantCulture, $"The strike score reaches {report.Strike.ScoreMax:0.0}; 1 is the threshold."),
        ],
        [
            "Stop the feeder. Do not run it while the armature strikes.",
            Rules.Isolate,
            "Measure the air gap with a feeler gauge; look for steel scrap between armature and core, loose clamp bolts, a broken leaf and too high a voltage.",
        ])
    {
        Plot = EvidencePlots.OverTime(report, "Strike score", "", window => window.Reading.StrikeScore, new EvidenceLimit("threshold", 1)),
    };

    private static string Rhythm(int? every) => every switch
    {
        2 => "in every second cycle of the drive (half orders)",
        3 => "in every third cycle of the drive (third orders)",
        1 => "in every cycle of the drive",
        _ => "at the same place of the drive's cycle, in no fixed rhythm,",
    };
}
