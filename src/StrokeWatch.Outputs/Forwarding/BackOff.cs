namespace StrokeWatch.Outputs.Forwarding;

/// <summary>How long to leave a server alone after failures: doubling, capped, spread by a seeded draw.</summary>
/// <remarks>The spread is what keeps thousands of devices that lost one server from all coming back in the same second.</remarks>
/// <param name="clock">The clock; only spans of it are read, so that a step of the wall clock does no harm.</param>
/// <param name="seed">Of the spread; different for every device.</param>
/// <param name="first">The wait after the first failure.</param>
/// <param name="most">The longest wait of its own accord.</param>
internal sealed class BackOff(TimeProvider clock, int seed, TimeSpan first, TimeSpan most)
{
    /// <summary>The longest wait that a server may ask for: whoever asks for more has made a mistake.</summary>
    public static readonly TimeSpan MostAsked = TimeSpan.FromHours(1);

    private readonly Random spread = new(seed);
    private int failures;
    private long since;
    private TimeSpan wait;

    /// <summary>Gets what is left of the wait; zero where there is none.</summary>
    public TimeSpan Left
    {
        get
        {
            var left = failures == 0 ? TimeSpan.Zero : wait - clock.GetElapsedTime(since);
            return left > TimeSpan.Zero ? left : TimeSpan.Zero;
        }
    }

    /// <summary>Gives a seed that is a name's own, the same on every machine and in every run (FNV-1a).</summary>
    public static int SeedOf(string name)
    {
        var hash = 2_166_136_261u;
        foreach (var letter in System.Text.Encoding.UTF8.GetBytes(name))
        {
            hash = (hash ^ letter) * 16_777_619u;
        }

        return unchecked((int)hash);
    }

    /// <summary>Counts a failure and begins a wait of half to all of the doubled time; gives it.</summary>
    /// <param name="asked">The least wait, as a server asks for it; up to a tenth is added and an hour is the most. Null where none is asked for.</param>
    public TimeSpan Failed(TimeSpan? asked = null)
    {
        var doubled = first.TotalSeconds * Math.Pow(2, Math.Min(failures, 30));
        wait = TimeSpan.FromSeconds(Math.Min(doubled, most.TotalSeconds) * (0.5 + 0.5 * spread.NextDouble()));
        if (asked is { } least)
        {
            var held = (least < MostAsked ? least : MostAsked) * (1 + 0.1 * spread.NextDouble());
            wait = held > wait ? held : wait;
        }

        failures++;
        since = clock.GetTimestamp();
        return wait;
    }

    /// <summary>Forgets all failures.</summary>
    public void Succeeded() => failures = 0;
}
