using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline;

/// <summary>Where no stroke was found at the drive's frequency, says at which frequency the tray does vibrate: most often the feeder file is another feeder's.</summary>
internal static class DriveElsewhere
{
    /// <summary>Beyond this share the line is not the drive with a sensor's clock error.</summary>
    private const double Apart = 0.05;

    /// <summary>Gives the report, its reason completed where a clear line stands elsewhere.</summary>
    /// <param name="report">The report.</param>
    /// <param name="first">The first block of the capture.</param>
    /// <param name="rateHz">The rate in Hz.</param>
    public static AssessmentReport Tell(AssessmentReport report, SampleBlock first, double rateHz)
    {
        var nominal = report.Feeder.Drive.NominalHz;
        if (report.Feeder.Drive.Free || report.Stroke is not { Stroke: null, Verdict: Verdict.Unmeasurable, Reason: { } reason } || report.ClippedSamples > 0
            || StrongestLine.Find(first) * rateHz is not { } found || Math.Abs(found - nominal) < Apart * nominal)
        {
            return report;
        }

        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"{reason}; the tray vibrates at {found:0.0} Hz, the feeder file says {nominal:0.##} Hz: check supply_hz, strokes_per_cycle and the capture's rate");
        return report with { Stroke = report.Stroke with { Reason = words } };
    }
}
