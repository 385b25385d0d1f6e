using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Mqtt.Sparkplug;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Tells a broker of the status, of the newest stroke and of every alarm, in a task of its own: whatever the broker does, nothing else waits for it.</summary>
/// <remarks>Alarms come from the store, behind a place that moves only when the broker has confirmed: each arrives at least once, with an id to know repeats by. Of strokes only the newest counts. How topics and payloads are made is the profile's.</remarks>
public sealed class MqttForwarder : IDisposable
{
    private const string Connection = "connection";
    private const int BatchRows = 50;
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(4);

    private readonly Lock gate = new();
    private readonly MqttOptions options;
    private readonly TimeProvider clock;
    private readonly Action<bool, string> tell;
    private readonly WaitingRows rows;
    private readonly string notes;
    private readonly BackOff off;
    private readonly RowWatch watch;
    private readonly IMqttProfile profile;
    private readonly PrimaryHost? host;
    private readonly DateTimeOffset begun;
    private readonly CancellationTokenSource stop = new();
    private readonly Task running;
    private ForwardingHealth health = new(0, 0, 0, 0, null, null);
    private (DateTimeOffset At, WindowReading Reading, Verdict Verdict, SupplyNow? Supply)? newest;
    private volatile bool asked;

    /// <summary>Starts to tell.</summary>
    /// <param name="options">Whom.</param>
    /// <param name="store">The store's file; it need not be there yet.</param>
    /// <param name="feeder">The feeder's name.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="tell">Hears, on the forwarder's own thread, of trouble (true) and of its end, in a sentence.</param>
    public MqttForwarder(MqttOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell)
    {
        (this.options, this.clock, this.tell) = (options, clock, tell);
        profile = options.Profile == MqttProfile.Sparkplug ? new SparkplugProfile(options, feeder) : new PlainProfile(options, feeder);
        (rows, watch, begun) = (new(store), new(clock), clock.GetUtcNow());
        host = profile.HostState is { } state ? new(state, clock) : null;
        notes = ForwardingFile.Beside(store, "mqtt");
        off = new(clock, BackOff.SeedOf(feeder), TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(1));
        running = Task.Run(Run);
    }

    /// <summary>Gets how the output stands; may be asked from any thread. Rows are alarms and steps of their lives.</summary>
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
    public void Stroke(in WindowReading reading, Verdict verdict, SupplyNow? supply = null)
    {
        lock (gate)
        {
            newest = (clock.GetUtcNow(), reading, verdict, supply);
        }

        watch.Nudge();
    }

    /// <summary>Hears that an alarm is on its way into the store; never waits.</summary>
    public void Alarm() => watch.Hear();

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Cancel();
        _ = Task.WaitAny([running], ClosePatience);
        stop.Dispose();
        watch.Dispose();
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
        var places = profile.Tables.Select(table => FirstPlace.Of(file, rows, table.Table, table.Place, table.FromNow ? begun : null)).ToArray();
        var connection = file.Knows(Connection) ? file.Place(Connection).Id + 1 : 0;
        file.Move(Connection, new(connection, 0));
        using var link = await MqttLink.Connect(options, profile.Will(connection, clock.GetUtcNow()), token).ConfigureAwait(false);
        try
        {
            if (profile.Commands is { } topic)
            {
                await link.Hear(topic, Command, token).ConfigureAwait(false);
            }

            if (host is not null)
            {
                await host.Wait(link, watch.Nudge, () => Count(Held(places), 0), words => Say($"Broker {options.Host}: {words}", told: false), token).ConfigureAwait(false);
            }

            asked = true;
            long? beaten = null;
            while (true)
            {
                await Birth(link, token).ConfigureAwait(false);
                if (watch.Due())
                {
                    await Rows(link, file, places, token).ConfigureAwait(false);
                }

                if (beaten is not { } last || clock.GetElapsedTime(last) >= options.Heartbeat)
                {
                    await Send(link, profile.Beat(clock.GetUtcNow(), Health.Held), token).ConfigureAwait(false);
                    await Confirm(link, token).ConfigureAwait(false);
                    beaten = clock.GetTimestamp();
                    off.Succeeded();
                    Say(null, told: false);
                }

                if (Newest() is var (at, reading, verdict, supply))
                {
                    await Send(link, profile.Stroke(at, reading, verdict, supply), token).ConfigureAwait(false);
                }

                if (!asked)
                {
                    await watch.Wait(token).ConfigureAwait(false);
                }
            }
        }
        catch (HostOfflineException)
        {
            // The death is said and all begins anew, with the next connection waiting for the host.
            await link.TakeLeave(profile.Leaving(clock.GetUtcNow())).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            await link.TakeLeave(profile.Leaving(clock.GetUtcNow())).ConfigureAwait(false);
            throw;
        }
    }

    private long Held(RowPlace[] places) => places.Select((place, table) => rows.After(profile.Tables[table].Table, place, 1).Held).Sum();

    private async Task Rows(MqttLink link, ForwardingFile file, RowPlace[] places, CancellationToken token)
    {
        var held = 0L;
        for (var table = 0; table < places.Length; table++)
        {
            while (true)
            {
                var waiting = rows.After(profile.Tables[table].Table, places[table], BatchRows);
                places[table] = waiting.From;
                Count(held + waiting.Held, 0);
                if (waiting.Rows.Count == 0)
                {
                    held += waiting.Held;
                    break;
                }

                foreach (var row in waiting.Rows)
                {
                    await Birth(link, token).ConfigureAwait(false);
                    await Send(link, profile.Row(profile.Tables[table].Table, row, clock.GetUtcNow()), token).ConfigureAwait(false);
                    if (!profile.ByPing)
                    {
                        Move(row);
                    }
                }

                await Confirm(link, token).ConfigureAwait(false);
                Move(waiting.Rows[^1]);
                Count(held + waiting.Held - waiting.Gone - waiting.Rows.Count, waiting.Rows.Count);
            }

            void Move(WaitingRow row)
            {
                if (row.Place != places[table])
                {
                    file.Move(profile.Tables[table].Place, row.Place);
                    places[table] = row.Place;
                }
            }
        }
    }

    /// <summary>Says what is said first, where it was not said yet or is asked for again.</summary>
    private async Task Birth(MqttLink link, CancellationToken token)
    {
        if (!asked)
        {
            return;
        }

        asked = false;
        foreach (var message in profile.Born(clock.GetUtcNow(), Health.Held))
        {
            await Send(link, message, token).ConfigureAwait(false);
        }
    }

    private Task Send(MqttLink link, in MqttMessage message, CancellationToken token)
    {
        host?.Demand();
        return link.Send(message, token);
    }

    private async Task Confirm(MqttLink link, CancellationToken token)
    {
        if (profile.ByPing)
        {
            await link.Ping(token).ConfigureAwait(false);
        }

        // What the broker has had since the host went is not with the host: it is sent again.
        host?.Demand();
    }

    private void Command(byte[] payload)
    {
        if (profile.Asks(payload))
        {
            asked = true;
            watch.Nudge();
        }
    }

    private (DateTimeOffset At, WindowReading Reading, Verdict Verdict, SupplyNow? Supply)? Newest()
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
