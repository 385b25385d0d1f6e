using System.Globalization;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor's clock changes its rate all at once, or is so far off that the supply frequency in the feeder file, or the rate, may be wrong.</summary>
internal sealed class SensorClock : IRule
{
    private const double Odd = 0.04;
    private const int MostTold = 3;

    public string Id => "sensor-clock";

    public Finding? Look(AssessmentReport report)
    {
        List<string> because = [.. report.ClockSteps.Take(MostTold).Select(Words)];
        List<string> check = [];
        if (because.Count > 0)
        {
            because.AddRange(report.ClockSteps.Count > MostTold ? [string.Create(CultureInfo.InvariantCulture, $"There are {report.ClockSteps.Count - MostTold} more such steps.")] : Array.Empty<string>());
            check.Add("Look whether the sensor's settings were changed: a clock that only warms up drifts, it does not jump.");
            check.Add(Rules.Isolate);
            check.Add("Check the sensor's supply and connection.");
        }

        if (report.ClockError is { } error && Math.Abs(error) >= Odd)
        {
            because.Add(string.Create(CultureInfo.InvariantCulture, $"Against the {(report.Feeder.Drive.Free ? "time stamps" : "mains")} the sensor's clock is off by {100 * error:+0.0;-0.0} %; the stroke is corrected for it."));
            check.Insert(0, $"Check {(report.Feeder.Drive.Free ? "" : "supply_hz in the feeder file and ")}the stated sampling rate: 4 % is much for a sensor's clock.");
        }

        return because.Count == 0 ? null : new(Id, 0.6, because, check)
        {
            Plot = EvidencePlots.OverTime(
                report, "Error of the sensor's clock", "%", window => 100 * window.Reading.ClockError, new EvidenceLimit("much for a sensor", 100 * Odd), new EvidenceLimit("much for a sensor", -100 * Odd)),
        };
    }

    private static string Words(ClockStep step) => string.Create(
        CultureInfo.InvariantCulture,
        $"At {step.AtSeconds:0.0} s the sensor's clock stepped by {100 * (step.After - step.Before):+0.00;-0.00} %, from {100 * step.Before:+0.00;-0.00;0.00} % to {100 * step.After:+0.00;-0.00;0.00} % against the mains; the stroke is corrected on both sides.");
}
