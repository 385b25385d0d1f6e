using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Relay;

/// <summary>
/// Keeps a relay energised while all is known to be well, and lets it drop when that ends: on an alarm, when the chain gives no sign of life, at the end of the program.
/// The line is written on a thread of its own, so that nothing waits for it.
/// </summary>
/// <remarks>Not a safety function. What a killed process leaves of its line is the chip's business: hence the resistor and the ExecStopPost of the notes.</remarks>
public sealed class RelayKeeper : IDisposable
{
    /// <summary>How long the chain may give no sign of life; a source is read ten times a second at least.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan Tick = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(2);

    private readonly object gate = new();
    private readonly RelayOptions options;
    private readonly TimeProvider clock;
    private readonly Func<IRelayLine> open;
    private readonly Action<bool, string> tell;
    private readonly BackOff off;
    private readonly long begun;
    private Thread? thread;
    private IRelayLine? line;
    private string? trouble;
    private bool? written;
    private bool fit;
    private bool measured;
    private bool closing;
    private long beaten;

    /// <summary>Makes a keeper that works when <see cref="Step"/> is called.</summary>
    internal RelayKeeper(RelayOptions options, TimeProvider clock, Func<IRelayLine> open, Action<bool, string> tell)
    {
        (this.options, this.clock, this.open, this.tell) = (options, clock, open, tell);
        off = new(clock, options.Line, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(10));
        beaten = begun = clock.GetTimestamp();
    }

    /// <summary>Gets what is wrong and what to do, in a sentence; null where nothing is.</summary>
    public string? Trouble => Volatile.Read(ref trouble);

    /// <summary>Gets whether the relay is energised; null while its line cannot be used.</summary>
    public bool? Energised
    {
        get
        {
            lock (gate)
            {
                return written;
            }
        }
    }

    /// <summary>Starts; the line is opened, de-energised, on the thread of its own.</summary>
    /// <param name="options">Which line, and how.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="open">Opens the line, de-energised from the first instant; null for the line of a chip of this machine.</param>
    /// <param name="tell">Hears, on the keeper's own thread, of trouble (true) and of its end, in a sentence.</param>
    public static RelayKeeper Start(RelayOptions options, TimeProvider clock, Func<IRelayLine>? open, Action<bool, string> tell)
    {
        var keeper = new RelayKeeper(options, clock, open ?? (() => GpioLine.Open(options)), tell);
        keeper.thread = new Thread(keeper.Run) { IsBackground = true, Name = "relay" };
        keeper.thread.Start();
        return keeper;
    }

    /// <summary>Hears that something was measured: before the first time nothing is known to be well. Any thread.</summary>
    public void Measured() => Volatile.Write(ref measured, true);

    /// <summary>Hears a sign of life of the chain, and whether any alarm that drops the relay stands; never waits for the line.</summary>
    public void Beat(bool well)
    {
        lock (gate)
        {
            beaten = clock.GetTimestamp();
            if (fit != well)
            {
                fit = well;
                Monitor.PulseAll(gate);
            }
        }
    }

    /// <summary>Puts the line as it must be now.</summary>
    internal void Step()
    {
        if (line is null && off.Left > TimeSpan.Zero)
        {
            return;
        }

        try
        {
            if (line is null)
            {
                line = open();
                Set(false);
                off.Succeeded();
            }

            var wanted = Wanted();
            if (wanted != written)
            {
                line.Write(wanted);
                Set(wanted);
            }

            Say(null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidOperationException or NotSupportedException)
        {
            Say($"Relay: {e.Message.ReplaceLineEndings(" ").TrimEnd('.')}: it cannot be energised, and what hangs on it takes the feeder for not well");
            Drop();
            off.Failed();
        }
    }

    /// <summary>Lets the relay drop and gives its line back.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            closing = true;
            Monitor.PulseAll(gate);
        }

        if (thread is null)
        {
            Drop();
        }
        else
        {
            thread.Join(ClosePatience);
        }
    }

    private bool Wanted()
    {
        lock (gate)
        {
            if (!fit || !Volatile.Read(ref measured) || clock.GetElapsedTime(beaten) > Patience)
            {
                return false;
            }
        }

        // The second half of each period is off: a timer relay behind it drops when the line stands still, energised or not.
        return options.Heartbeat is not { } period || clock.GetElapsedTime(begun).TotalSeconds % period.TotalSeconds < 0.5 * period.TotalSeconds;
    }

    private void Run()
    {
        while (true)
        {
            Step();
            lock (gate)
            {
                if (closing)
                {
                    break;
                }

                Monitor.Wait(gate, Tick);
                if (closing)
                {
                    break;
                }
            }
        }

        Drop();
    }

    private void Drop()
    {
        try
        {
            line?.Dispose();
        }
        catch (Exception e) when (e is IOException or InvalidOperationException)
        {
            // A line that cannot be given back in order is the kernel's at the end of the process.
        }

        line = null;
        Set(null);
    }

    private void Set(bool? energised)
    {
        lock (gate)
        {
            written = energised;
        }
    }

    private void Say(string? words)
    {
        if (words == trouble)
        {
            return;
        }

        Volatile.Write(ref trouble, words);
        tell(words is not null, words ?? "Relay: its line can be used again");
    }
}
