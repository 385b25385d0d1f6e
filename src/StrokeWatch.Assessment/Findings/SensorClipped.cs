using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor's range is too small for what it meets.</summary>
internal sealed class SensorClipped : IRule
{
    public string Id => "sensor-clipped";

    public Finding? Look(AssessmentReport report) => report.Count(WindowQuality.Clipped) == 0 ? null : new(
        Id,
        0.95,
        [string.Create(CultureInfo.InvariantCulture, $"{report.ClippedSamples} samples in {report.Count(WindowQuality.Clipped)} windows stand at the sensor's rail; no stroke is given for those.")],
        ["Use a sensor whose full scale is at least twice the expected peak; if the range is right, look for hammering."]);
}
