using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Sensors.Converters;

/// <summary>Reads a converter on a thread of its own and gives the newest true rms; a converter that is lost is tried again, after 0.5 s and at last every 5.</summary>
/// <remarks>Each sample carries the host's monotonic time of its read. The thread is no clock: the operating system reads late, by a millisecond and more, so that no phase is told.</remarks>
public sealed class SupplyMeter : IDisposable
{
    private readonly ConverterSettings settings;
    private readonly Func<ConverterSettings, IConverterDriver> connect;
    private readonly TimeProvider time;
    private readonly Action<string> tell;
    private readonly BackOff backOff;
    private readonly RmsTally tally;
    private readonly ManualResetEventSlim stop = new(false);
    private readonly Thread thread;
    private readonly long begun;
    private Reading? newest;
    private volatile string? trouble = "no whole second has been read yet";

    /// <summary>Starts to read.</summary>
    /// <param name="settings">The converter.</param>
    /// <param name="time">The clock.</param>
    /// <param name="tell">Hears in a sentence what becomes of the converter; from the meter's thread.</param>
    public SupplyMeter(ConverterSettings settings, TimeProvider time, Action<string> tell)
        : this(settings, ConverterDevices.Connect, time, tell)
    {
    }

    /// <summary>Starts to read what a function connects.</summary>
    internal SupplyMeter(ConverterSettings settings, Func<ConverterSettings, IConverterDriver> connect, TimeProvider time, Action<string> tell)
    {
        (this.settings, this.connect, this.time, this.tell) = (settings, connect, time, tell);
        (backOff, tally, begun) = (new(time), new(settings.MainsHz), time.GetTimestamp());
        thread = new(Run) { IsBackground = true, Name = "supply", Priority = ThreadPriority.AboveNormal };
        thread.Start();
    }

    /// <summary>Gets why there is no voltage; null where there is one.</summary>
    public string? Trouble => trouble;

    /// <summary>Gets the seconds that were given up because the system was too late.</summary>
    public long Holes => tally.Holes;

    /// <summary>Gives the true rms at the converter's input in V; null where none is younger than so long.</summary>
    public double? Volts(TimeSpan youngest) => Volatile.Read(ref newest) is { } read && time.GetElapsedTime(read.Stamp) <= youngest ? read.Volts : null;

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Set();
        thread.Join();
        stop.Dispose();
    }

    private void Run()
    {
        while (!stop.IsSet)
        {
            if (backOff.Remaining is var wait && wait > TimeSpan.Zero)
            {
                stop.Wait(wait);
                continue;
            }

            Lose(Listen());
        }
    }

    /// <summary>Reads until told to stop or until the converter is lost; gives why.</summary>
    private string? Listen()
    {
        try
        {
            using var driver = connect(settings);
            if (driver.Start() is { } wrong)
            {
                return wrong;
            }

            var period = 1 / settings.RateHz;
            var due = Now;
            while (!stop.IsSet)
            {
                var volts = driver.Read();
                if (tally.Take(Now, volts, out var rms))
                {
                    if (driver.Doubt() is { } doubt)
                    {
                        return doubt;
                    }

                    Tell(rms);
                }

                due = Math.Max(due + period, Now - 10 * period);

                // Less than a millisecond cannot be waited for; what is due by then is read in one go, each with its own time.
                if (due - Now > 0)
                {
                    stop.Wait(TimeSpan.FromSeconds(Math.Max(1e-3, due - Now)));
                }
            }

            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or InvalidOperationException or TimeoutException or PlatformNotSupportedException)
        {
            return ConverterDevices.Words(settings, fault);
        }
    }

    private double Now => time.GetElapsedTime(begun).TotalSeconds;

    private void Tell(double? rms)
    {
        backOff.Succeeded();
        var before = trouble;
        trouble = rms is null ? $"{settings.Name}: the voltage reaches an end of its range: choose a transducer or a range that holds 1.6 times the rms" : null;
        Volatile.Write(ref newest, rms is { } known ? new(known, time.GetTimestamp()) : null);
        if (before != trouble)
        {
            tell(trouble ?? $"{settings.Name}: the supply's voltage is read");
        }
    }

    private void Lose(string? why)
    {
        if (why is null)
        {
            return;
        }

        backOff.Failed();
        var words = $"{settings.Name}: {why}";
        if (trouble != words)
        {
            trouble = words;
            tell(words);
        }
    }

    private sealed record Reading(double Volts, long Stamp);
}
