using System.Globalization;

namespace StrokeWatch.Outputs.Store;

/// <summary>Tells when the computer's clock cannot be right, or was set while the program ran, so that whoever reads rows knows which of their dates to trust.</summary>
/// <remarks>Nothing hangs on it: rows keep the date that the clock gave, and none is deleted by a date.</remarks>
internal sealed class ClockWatch(TimeProvider clock)
{
    /// <summary>No row of this program can be older: it was not written yet.</summary>
    public static readonly DateTimeOffset Earliest = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    // A clock that is disciplined moves by less; what a person or a time server at last sets is more.
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LongOff = TimeSpan.FromDays(400);

    private DateTimeOffset date = clock.GetUtcNow();
    private long stamp = clock.GetTimestamp();

    /// <summary>Gives what is odd about the clock at a start beside the newest row there is, null where that is not known; null where nothing is odd.</summary>
    public string? AtStart(DateTimeOffset? newest)
    {
        var now = clock.GetUtcNow();
        return now < Earliest ? $"the computer's clock stands at {Text(now)}, before this program was written: it has not been set yet; rows carry that date until it is, and are kept all the same"
            : now + Step < newest ? $"the computer's clock stands at {Text(now)}, earlier than the newest row here, {Text(newest.Value)}: one of the two is wrong; rows are kept all the same"
            : now - LongOff > newest ? $"the computer's clock stands at {Text(now)}, {Days(now - newest.Value)} after the newest row here: so long nothing ran, or the clock is wrong; rows are kept all the same"
            : null;
    }

    /// <summary>Gives the words for a clock that was set since the last look; null where it was not.</summary>
    public string? Look()
    {
        var (now, at) = (clock.GetUtcNow(), clock.GetTimestamp());
        var expected = date + clock.GetElapsedTime(stamp, at);
        (date, stamp) = (now, at);
        var step = now - expected;
        return step.Duration() < Step ? null
            : $"the computer's clock was set {(step > TimeSpan.Zero ? "forward" : "back")} by {Length(step.Duration())}, from {Text(expected)} to {Text(now)}: rows before this carry the old date";
    }

    private static string Length(TimeSpan span) => span.TotalDays >= 2 ? Days(span)
        : FormattableString.Invariant($"{(int)span.TotalHours} h {span.Minutes} min {span.Seconds} s");

    private static string Days(TimeSpan span) => FormattableString.Invariant($"{span.TotalDays:0} days");

    private static string Text(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
