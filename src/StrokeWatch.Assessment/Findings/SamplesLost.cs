using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Findings;

/// <summary>Samples are missing.</summary>
internal sealed class SamplesLost : IRule
{
    public string Id => "samples-lost";

    public Finding? Look(AssessmentReport report) => report.Count(WindowQuality.Gap) is not (> 0 and var gaps) ? null : new(
        Id,
        0.9,
        [string.Create(CultureInfo.InvariantCulture, $"Samples are missing in {gaps} places; nothing is measured across them.")],
        ["Check the sensor's cable, plug and supply, and the load of the board that reads it."]);
}
