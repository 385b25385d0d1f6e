namespace StrokeWatch.Samples.Csv;

/// <summary>Gives the start of each block: evenly spaced within a stretch, from the time column after a gap, never running back.</summary>
internal sealed class StretchClock
{
    private readonly double step;
    private readonly bool fromTimes;
    private double start;
    private double shift;
    private double offset = double.NaN;
    private long samples;

    /// <summary>Makes a clock; without a rate every block starts at 0.</summary>
    public StretchClock(double? rateHz, bool fromTimes)
    {
        step = rateHz is { } rate ? 1 / rate : 0;
        this.fromTimes = fromTimes;
    }

    /// <summary>Gives the start in seconds of a block that begins with this row.</summary>
    public double Begin(RowVerdict verdict, double time, long missing)
    {
        var now = start + (samples * step);
        if (double.IsNaN(offset) && !double.IsNaN(time))
        {
            offset = time - now;
        }

        if (verdict == RowVerdict.Follows)
        {
            return now;
        }

        if (verdict == RowVerdict.AfterSetBack)
        {
            shift = now - (time - offset);
        }

        (start, samples) = (fromTimes && !double.IsNaN(time) ? Math.Max(now, time - offset + shift) : now + (missing * step), 0);
        return start;
    }

    /// <summary>Counts the samples delivered.</summary>
    public void Advance(int count) => samples += count;
}
