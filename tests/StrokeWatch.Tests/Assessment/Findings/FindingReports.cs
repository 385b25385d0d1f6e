using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Tests.Reports.Html;

namespace StrokeWatch.Tests.Assessment.Findings;

/// <summary>Reports in which each rule finds what it looks for, by the rule's id.</summary>
internal static class FindingReports
{
    public static IReadOnlyDictionary<string, ReplayResult> All { get; } = Make();

    private static Dictionary<string, ReplayResult> Make()
    {
        var (steady, several) = (Pages.Replay("steady-50hz"), Pages.Replay("rocking-tray"));
        var sensors = several.Report.Sensors!;
        ReplayResult With(Func<AssessmentReport, AssessmentReport> change) => Found(steady with { Report = change(steady.Report) });
        return new(StringComparer.Ordinal)
        {
            ["armature-strike"] = Pages.Replay("strike-plain"),
            ["over-stroke"] = Pages.Replay("over-stroke"),
            ["high-stroke"] = Pages.Replay("high"),
            ["low-stroke"] = Pages.Replay("low"),
            ["sensor-clipped"] = Pages.Replay("clipped"),
            ["samples-lost"] = Pages.Replay("gap"),
            ["uneven-stroke"] = several,
            ["sensor-silent"] = Found(several with
            {
                Report = several.Report with
                {
                    Sensors = sensors with { Sensors = [.. sensors.Sensors.Select((sensor, i) => i == 1 ? sensor with { Stroke = null, WindowsClipped = 0, Reason = "its cable is off" } : sensor)] },
                },
            }),
            ["wide-ellipse"] = With(report => report with
            {
                Stroke = report.Stroke with { EllipseRatio = 0.3 },
                Windows = [.. report.Windows.Select(window => window with { Reading = window.Reading with { EllipseRatio = 0.3 } })],
            }),
            ["sensor-askew"] = With(report => report with { Mounting = new() { AskewDegrees = 20, LineDegrees = 31, LineUncertaintyDegrees = 1 }, Feeder = report.Feeder with { LineAngleDegrees = 22 } }),
            ["sensor-clock"] = With(report => report with
            {
                ClockError = 0.06,
                ClockSteps = [new(1, 0, 0.06)],
                Windows = [.. report.Windows.Select(window => window with { Reading = window.Reading with { ClockError = 0.06 } })],
            }),
        };
    }

    private static ReplayResult Found(ReplayResult result) => result with { Findings = StrokeWatch.Assessment.Findings.Rules.Look(result.Report) };
}
