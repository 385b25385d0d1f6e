using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Tells a broker of the status, of the newest stroke and of every alarm, in a task of its own: whatever the broker does, nothing else waits for it.</summary>
/// <remarks>Alarms come from the store, behind a place that moves only when the broker has confirmed: each arrives at least once, with an id to know repeats by. Of strokes only the newest counts.</remarks>
public sealed class MqttForwarder : IDisposable
{
    private const string Table = "alarm";
    private const int BatchRows = 50;
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan EagerLook = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan EagerFor = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(4);

    private readonly Lock gate = new();
    private readonly MqttOptions options;
    private readonly string feeder;
    private readonly TimeProvider clock;
    private readonly Action<bool, string> tell;
    private readonly WaitingRows rows;
    private readonly string notes;
    private readonly BackOff off;
    private readonly SemaphoreSlim wake = new(0, 1);
    private readonly CancellationTokenSource stop = new();
    private readonly Task running;
    private ForwardingHealth health = new(0, 0, 0, 0, null, null);
    private (DateTimeOffset At, WindowReading Reading, Verdict Verdict)? newest;
    private long eagerSince;
    private bool eager;

    /// <summary>Starts to tell.</summary>
    /// <param name="options">Whom.</param>
    /// <param name="store">The store's file; it need not be there yet.</param>
    /// <param name="feeder">The feeder's name.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="tell">Hears, on the forwarder's own thread, of trouble (true) and of its end, in a sentence.</param>
    public MqttForwarder(MqttOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell)
    {
        (this.options, this.feeder, this.clock, this.tell) = (options, feeder, clock, tell);
        rows = new(store);
        notes = ForwardingFile.Beside(store, "mqtt");
        off = new(clock, BackOff.SeedOf(feeder), TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(1));
        running = Task.Run(Run);
    }

    /// <summary>Gets how the output stands; may be asked from any thread. Rows are alarms.</summary>
    public ForwardingHealth Health
    {
        get
        {
            lock (gate)
            {
                return health;
            }
        }
    }

    /// <summary>Takes the newest window's stroke in place of one that was not sent yet; never waits.</summary>
    public void Stroke(in WindowReading reading, Verdict verdict)
    {
        lock (gate)
        {
            newest = (clock.GetUtcNow(), reading, verdict);
        }

        Wake();
    }

    /// <summary>Hears that an alarm is on its way into the store; never waits.</summary>
    public void Alarm()
    {
        lock (gate)
        {
            (eager, eagerSince) = (true, clock.GetTimestamp());
        }

        Wake();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Cancel();
        _ = Task.WaitAny([running], ClosePatience);
        stop.Dispose();
        wake.Dispose();
    }

    private async Task Run()
    {
        var leaving = "";
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await Talk(stop.Token).ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e)
            {
                var trouble = e as MqttTroubleException;
                var words = trouble?.Message ?? $"Broker {options.Host}: alarms to be sent cannot be read, or what is done noted ({e.Message.ReplaceLineEndings(" ")}); check the store's folder and its room";
                Say(words, told: leaving == words);
                leaving = words;
                var wait = off.Failed(trouble is { Lasting: true } ? TimeSpan.FromMinutes(1) : null);
                try
                {
                    await Task.Delay(wait, clock, stop.Token).ConfigureAwait(false);
                }
                catch (OperationCanceledException)
                {
                    return;
                }
            }
        }
    }

    /// <summary>Connects and tells until something goes wrong or the end is asked for.</summary>
    private async Task Talk(CancellationToken token)
    {
        using var file = ForwardingFile.Open(notes, clock);
        var place = file.Place(Table);
        using var link = await MqttLink.Connect(options, MqttJson.Status(feeder, online: false, null, null, "the connection to the program was lost"), token).ConfigureAwait(false);
        try
        {
            long? beaten = null;
            while (true)
            {
                place = await Alarms(link, file, place, token).ConfigureAwait(false);
                if (beaten is not { } last || clock.GetElapsedTime(last) >= options.Heartbeat)
                {
                    await link.Send(new("status", MqttJson.Status(feeder, online: true, clock.GetUtcNow(), Health.Held, null), Confirmed: true, Retained: true), token).ConfigureAwait(false);
                    beaten = clock.GetTimestamp();
                    off.Succeeded();
                    Say(null, told: false);
                }

                if (Newest() is var (at, reading, verdict))
                {
                    await link.Send(new("stroke", MqttJson.Stroke(feeder, at, reading, verdict), Confirmed: false, Retained: false), token).ConfigureAwait(false);
                }

                await Wait(token).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            await Goodbye(link).ConfigureAwait(false);
            throw;
        }
    }

    private async Task<RowPlace> Alarms(MqttLink link, ForwardingFile file, RowPlace place, CancellationToken token)
    {
        while (true)
        {
            var waiting = rows.After(Table, place, BatchRows);
            place = waiting.From;
            Count(waiting.Held, 0);
            if (waiting.Rows.Count == 0)
            {
                return place;
            }

            foreach (var row in waiting.Rows)
            {
                await link.Send(new("alarm", MqttJson.Alarm(row), Confirmed: true, Retained: false), token).ConfigureAwait(false);
                file.Move(Table, row.Place);
                place = row.Place;
            }

            Count(waiting.Held - waiting.Gone - waiting.Rows.Count, waiting.Rows.Count);
        }
    }

    private async Task Goodbye(MqttLink link)
    {
        try
        {
            using var short_ = new CancellationTokenSource(TimeSpan.FromSeconds(2));
            await link.Send(new("status", MqttJson.Status(feeder, online: false, clock.GetUtcNow(), null, "the program was stopped"), Confirmed: true, Retained: true), short_.Token).ConfigureAwait(false);
            await link.Leave(short_.Token).ConfigureAwait(false);
        }
        catch (Exception e) when (e is MqttTroubleException or OperationCanceledException)
        {
            // Then the broker tells of it by the will.
        }
    }

    private async Task Wait(CancellationToken token)
    {
        bool soon;
        lock (gate)
        {
            eager &= clock.GetElapsedTime(eagerSince) < EagerFor;
            soon = eager;
        }

        await wake.WaitAsync(soon ? EagerLook : Look, token).ConfigureAwait(false);
    }

    private void Wake()
    {
        lock (gate)
        {
            if (wake.CurrentCount == 0)
            {
                wake.Release();
            }
        }
    }

    private (DateTimeOffset At, WindowReading Reading, Verdict Verdict)? Newest()
    {
        lock (gate)
        {
            var taken = newest;
            newest = null;
            return taken;
        }
    }

    private void Count(long held, int sent)
    {
        lock (gate)
        {
            health = health with { Held = held, Sent = health.Sent + sent, LastSuccess = sent > 0 ? clock.GetUtcNow() : health.LastSuccess };
        }
    }

    private void Say(string? words, bool told)
    {
        bool better;
        lock (gate)
        {
            better = words is null && health.Trouble is not null;
            health = health with { Trouble = words, LastSuccess = words is null ? clock.GetUtcNow() : health.LastSuccess };
        }

        if (better || (words is not null && !told))
        {
            tell(words is not null, words ?? $"Broker {options.Host} is connected again");
        }
    }
}
