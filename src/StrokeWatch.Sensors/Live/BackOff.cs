namespace StrokeWatch.Sensors.Live;

/// <summary>The times at which a lost sensor is tried again: after 0.5, 1, 2 and then every 5 s.</summary>
internal sealed class BackOff(TimeProvider time)
{
    private static readonly TimeSpan[] Steps = [TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(5)];
    private long since;
    private int failures;

    /// <summary>Gets how long to wait until the next try; zero where it is due.</summary>
    public TimeSpan Remaining
    {
        get
        {
            if (failures == 0)
            {
                return TimeSpan.Zero;
            }

            var left = Steps[Math.Min(failures, Steps.Length) - 1] - time.GetElapsedTime(since);
            return left > TimeSpan.Zero ? left : TimeSpan.Zero;
        }
    }

    /// <summary>Notes a failed try, or a loss.</summary>
    public void Failed()
    {
        failures++;
        since = time.GetTimestamp();
    }

    /// <summary>Notes that all is well: the next loss begins with the shortest wait.</summary>
    public void Succeeded() => failures = 0;
}
