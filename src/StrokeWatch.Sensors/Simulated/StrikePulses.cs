namespace StrokeWatch.Sensors.Simulated;

/// <summary>The prescribed blows of a scenario, placed at the closest approach of armature and core as it comes.</summary>
internal sealed class StrikePulses(SimulatedStrike strike, double peakNewtons, double driveHz, SeededRandom random)
{
    private double started = double.NegativeInfinity;
    private double lastApproach = double.NegativeInfinity;
    private double peak;
    private long approaches;

    /// <summary>Gets how many blows were given.</summary>
    public long Count { get; private set; }

    /// <summary>Gets the highest force so far in N.</summary>
    public double Peak { get; private set; }

    /// <summary>Looks at the motion at a step's start: the speed in m/s with which the gap opens, and how that changes in m/s².</summary>
    public void Watch(double seconds, double speed, double acceleration)
    {
        var near = speed < 0 && acceleration > 0 && speed + (acceleration * strike.PulseSeconds / 2) >= 0;
        if (!near || seconds - lastApproach < 0.6 / driveHz)
        {
            return;
        }

        lastApproach = seconds;
        approaches++;
        if (seconds >= strike.FromSeconds && seconds < strike.ToSeconds && approaches % strike.Every == 0)
        {
            started = seconds;
            peak = strike.ForceShare * peakNewtons * (1 + (strike.Spread * ((2 * random.Uniform()) - 1)));
            Count++;
            Peak = Math.Max(Peak, peak);
        }
    }

    /// <summary>Gives the force in N at a time.</summary>
    public double Force(double seconds)
    {
        var phase = (seconds - started) / strike.PulseSeconds;
        return phase is >= 0 and < 1 ? peak * Math.Sin(Math.PI * phase) : 0;
    }
}
