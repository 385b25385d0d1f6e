using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Tells which clock the drive's frequency rests on, in names and in words.</summary>
internal static class ClockSource
{
    /// <summary>Gives the name that the JSON document uses.</summary>
    public static string Name(SourceInfo source, AssessmentReport report) => (report.Feeder.Drive.Free, Stamps(source, report)) switch
    {
        (false, false) => "mains",
        (false, true) => "mains-and-time-stamps",
        (true, true) => "time-stamps",
        (true, false) => "sensor",
    };

    /// <summary>Gives it in words.</summary>
    public static string Words(SourceInfo source, AssessmentReport report) => (report.Feeder.Drive.Free, Stamps(source, report)) switch
    {
        (false, false) => "locked to the mains",
        (false, true) => "locked to the mains, samples spaced by their time stamps",
        (true, true) => "measured by the time stamps",
        (true, false) => "measured by the sensor's own clock, which nothing corrects",
    };

    /// <summary>Tells whether time stamps have a say: over a long span they set a free drive's rate; with the mains they count only where they space the samples.</summary>
    private static bool Stamps(SourceInfo source, AssessmentReport report) => report.Feeder.Drive.Free
        ? source.RateFrom == RateOrigin.Timestamps
        : StampUses.Of(source, report) == StampUse.Used;
}
