namespace StrokeWatch.Sensors.Simulated;

/// <summary>The mains of a scenario: its phase, its voltage, and whether the feeder is switched on.</summary>
internal sealed class MainsSupply
{
    private const int StepsPerWander = 64;
    private const double WanderSeconds = 5;
    private readonly FeederScenario scenario;
    private readonly SeededRandom random;
    private readonly double step;
    private double wander;
    private int untilWander;
    private int segment;
    private int interval;

    public MainsSupply(FeederScenario scenario, double stepSeconds, MainsSupply? before = null)
    {
        this.scenario = scenario;
        step = stepSeconds;
        random = new SeededRandom(scenario.Seed, 1);
        wander = scenario.Supply.WanderHz * random.Normal();
        if (before is not null)
        {
            (Phase, random, wander, untilWander) = (before.Phase, before.random, before.wander, before.untilWander);
        }
    }

    /// <summary>Gets the phase in radians from a rising zero of the voltage.</summary>
    public double Phase { get; private set; }

    /// <summary>Gets the frequency in Hz of the last step.</summary>
    public double FrequencyHz { get; private set; }

    /// <summary>Goes one step and gives the phase after it.</summary>
    public double Advance()
    {
        if (untilWander-- == 0)
        {
            untilWander = StepsPerWander - 1;
            var kept = Math.Exp(-StepsPerWander * step / WanderSeconds);
            wander = (kept * wander) + (scenario.Supply.WanderHz * Math.Sqrt(1 - (kept * kept)) * random.Normal());
        }

        FrequencyHz = scenario.Feeder.Drive.SupplyHz + scenario.Supply.OffsetHz + wander;
        return Phase += 2 * Math.PI * FrequencyHz * step;
    }

    /// <summary>Gives the voltage relative to full at a time, asked in order.</summary>
    public double Voltage(double seconds)
    {
        var points = scenario.Supply.Voltage;
        while (segment + 1 < points.Count && seconds >= points[segment + 1].AtSeconds)
        {
            segment++;
        }

        var (at, percent) = points[segment];
        if (segment + 1 < points.Count && seconds > at)
        {
            var (next, then) = points[segment + 1];
            percent += (then - percent) * (seconds - at) / (next - at);
        }

        return percent / 100;
    }

    /// <summary>Gives when the feeder was last switched on, asked in order of time; null while it is off, minus infinity where it has run long before.</summary>
    public double? OnSince(double seconds)
    {
        var intervals = scenario.Supply.On;
        if (intervals.Count == 0)
        {
            return scenario.WarmStart ? double.NegativeInfinity : seconds >= 0 ? 0 : null;
        }

        while (interval < intervals.Count && seconds >= intervals[interval].To)
        {
            interval++;
        }

        if (interval == intervals.Count)
        {
            return null;
        }

        var from = intervals[interval].From;
        return from <= 0 && scenario.WarmStart ? double.NegativeInfinity : seconds >= from ? from : null;
    }
}
