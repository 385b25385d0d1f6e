namespace StrokeWatch.Outputs.Store;

/// <summary>Dates windows by when they end, one after the other: several that come at once, as after a sensor's buffer has emptied itself, keep their order.</summary>
internal sealed class WindowDates
{
    /// <summary>A clock that goes back further than this was set, and what it says is followed.</summary>
    private static readonly TimeSpan Set = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan Least = TimeSpan.FromMilliseconds(1);

    private DateTimeOffset last = DateTimeOffset.MinValue;

    /// <summary>Gives the beginning of a window that ends now; later than that of the window before, but for a clock that was set back.</summary>
    /// <param name="now">The clock's time.</param>
    /// <param name="lengthSeconds">The window's length in seconds; one that is no number counts as 0.</param>
    public DateTimeOffset Begin(DateTimeOffset now, double lengthSeconds)
    {
        var begin = now.AddSeconds(double.IsFinite(lengthSeconds) ? -lengthSeconds : 0);
        last = begin < last + Least && last - begin < Set ? last + Least : begin;
        return last;
    }
}
