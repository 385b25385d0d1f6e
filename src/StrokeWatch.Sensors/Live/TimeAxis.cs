namespace StrokeWatch.Sensors.Live;

/// <summary>The one time axis of a live sensor, in seconds from its first sample: samples over rate, and the host's monotonic clock across gaps of unknown length.</summary>
internal sealed class TimeAxis(TimeProvider time)
{
    private double baseSeconds;
    private long sinceBase;
    private double? rateHz;
    private long lastArrival;
    private bool started;

    /// <summary>Gets the time of the next sample, in s.</summary>
    public double Next => baseSeconds + (rateHz is { } rate ? sinceBase / rate : 0);

    /// <summary>Gets the present time on the axis, in s: where it stood when samples last came, and the host's time since.</summary>
    public double Now => started ? Next + SinceLastArrival : 0;

    private double SinceLastArrival => time.GetElapsedTime(lastArrival).TotalSeconds;

    /// <summary>Takes in a run: the gap before it (null where its length is unknown), its samples, and the rate in Hz, null where unknown.</summary>
    public void Arrive(long? missing, int count, double? rate)
    {
        if (!started)
        {
            started = true;
        }
        else if (missing is null || rate is null || rateHz is null)
        {
            // The run itself took its own length to come, so that much of the host's time belongs to it and not to the gap.
            var own = count / rate ?? 0;
            Rebase(Next + Math.Max(0, SinceLastArrival - own), rate);
        }
        else if (rate != rateHz)
        {
            Rebase(Next, rate);
            sinceBase = missing.Value;
        }
        else
        {
            sinceBase += missing.Value;
        }

        rateHz = rate;
        lastArrival = time.GetTimestamp();
    }

    /// <summary>Gives out samples: the time of the next one moves on.</summary>
    public void Advance(int count) => sinceBase += count;

    private void Rebase(double seconds, double? rate)
    {
        baseSeconds = seconds;
        sinceBase = 0;
        rateHz = rate;
    }
}
