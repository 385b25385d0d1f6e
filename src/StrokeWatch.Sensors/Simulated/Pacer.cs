namespace StrokeWatch.Sensors.Simulated;

/// <summary>The count of samples that are due: the time elapsed times the rate, so that the mean rate is exact however late each look is.</summary>
internal sealed class Pacer
{
    private readonly TimeProvider time;
    private readonly double rateHz;
    private readonly long origin;

    /// <summary>Starts the clock for a rate in Hz.</summary>
    public Pacer(TimeProvider time, double rateHz)
    {
        this.time = time;
        this.rateHz = rateHz;
        origin = time.GetTimestamp();
    }

    /// <summary>Gets the samples due since the start.</summary>
    public long Due => (long)(time.GetElapsedTime(origin).TotalSeconds * rateHz);

    /// <summary>Gives the time until so many samples are due; zero where they are.</summary>
    public TimeSpan Until(long samples)
    {
        var left = TimeSpan.FromSeconds(samples / rateHz) - time.GetElapsedTime(origin);
        return left > TimeSpan.Zero ? left : TimeSpan.Zero;
    }
}
