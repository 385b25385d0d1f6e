using System.Globalization;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor's clock is so far off that the supply frequency in the feeder file, or the rate, may be wrong.</summary>
internal sealed class SensorClock : IRule
{
    private const double Odd = 0.04;

    public string Id => "sensor-clock";

    public Finding? Look(AssessmentReport report) => report.ClockError is not { } error || Math.Abs(error) < Odd ? null : new(
        Id,
        0.6,
        [string.Create(CultureInfo.InvariantCulture, $"Against the mains the sensor's clock is off by {100 * error:+0.0;-0.0} %; the stroke is corrected for it.")],
        ["Check supply_hz in the feeder file and the stated sampling rate: 4 % is much for a sensor's clock."]);
}
