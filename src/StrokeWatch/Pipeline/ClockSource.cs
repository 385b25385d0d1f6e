using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Tells which clock the drive's frequency rests on, in names and in words.</summary>
internal static class ClockSource
{
    /// <summary>Half-width of a sensor clock's tolerance where nothing corrects it (common practice, no source).</summary>
    public const double SensorClock = 0.01;

    /// <summary>A stated rate that is further off is another rate, not a clock's error (common practice, no source).</summary>
    private const double MostError = 0.05;

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

    /// <summary>Tells whether time stamps correct a stated rate: they know it better than a sensor's clock as a rule runs, and differ from it by no more than such a clock does.</summary>
    public static bool StampsCorrect(SourceInfo source) => source is { RateFrom: not RateOrigin.Timestamps, RateHz: { } stated, TimeStamps: { StepUncertainty: < SensorClock } stamps }
        && Math.Abs(1 / (stamps.StepSeconds * stated) - 1) < MostError;

    /// <summary>Gives the relative error of the sensor's clock: by the mains or the stamps where they corrected it, for a free drive against the rate that the file's header states.</summary>
    public static double? Error(SourceInfo source, AssessmentReport report)
    {
        var header = report.Feeder.Drive.Free && report.FrequencyHz is not null && source is { RateFrom: RateOrigin.Timestamps, RateHz: { } rate, HeaderRateHz: { } stated }
            ? rate / stated - 1
            : (double?)null;
        return source.RateHz is null ? null : report.ClockError ?? (Math.Abs(header ?? 1) < MostError ? header : null);
    }

    /// <summary>Tells whether time stamps have a say: over a long span they set a free drive's rate; with the mains they count only where they space the samples.</summary>
    private static bool Stamps(SourceInfo source, AssessmentReport report) => report.Feeder.Drive.Free
        ? source.RateFrom == RateOrigin.Timestamps || StampsCorrect(source)
        : StampUses.Of(source, report) == StampUse.Used;
}
