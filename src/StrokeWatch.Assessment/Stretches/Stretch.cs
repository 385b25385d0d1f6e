using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Stretches;

/// <summary>A stretch of running summed up: what a capture of it would tell of the machine.</summary>
/// <param name="From">When it began.</param>
/// <param name="LengthSeconds">How long it lasted, in seconds.</param>
/// <param name="Ended">Why it ended.</param>
/// <param name="Alarm">Whether an alarm of the stroke or of the sensor stood in it: what is wrong must not be learned as healthy.</param>
/// <param name="Features">What it tells.</param>
public sealed record Stretch(DateTimeOffset From, double LengthSeconds, StretchEnd Ended, bool Alarm, CaptureFeatures Features)
{
    /// <summary>Gets when it ended.</summary>
    public DateTimeOffset To => From.AddSeconds(LengthSeconds);
}
