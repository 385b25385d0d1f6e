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
        ["Look whether the board that reads the sensor is busy with other work.", Rules.Isolate, "Check the sensor's cable, plug and supply."])
    {
        Plot = EvidencePlots.OverTime(report, "Samples missing in a window (1) or not (0)", "", window => window.Reading.Quality == WindowQuality.Gap ? 1 : 0),
    };
}
