using Microsoft.Data.Sqlite;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Influx;

/// <summary>
/// Forwards alarms, events, findings and windows from the store to a time-series server, in a task of its own: whatever the server does, nothing else waits for it.
/// </summary>
/// <remarks>The store is the queue, so that an outage costs no memory. Every row reaches the server at least once; sent twice it falls onto itself.</remarks>
public sealed class InfluxForwarder : IDisposable
{
    private static readonly TimeSpan DeniedWait = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(5);

    private readonly Lock gate = new();
    private readonly InfluxOptions options;
    private readonly string store;
    private readonly TimeProvider clock;
    private readonly Action<bool, string> tell;
    private readonly IInfluxWriter writer;
    private readonly BackOff server;
    private readonly CancellationTokenSource stop = new();
    private readonly IReadOnlyList<InfluxLane> lanes;
    private ForwardingFile? file;
    private Task? running;
    private ForwardingHealth health = new(0, 0, 0, 0, null, null);
    private DateTimeOffset? lastSuccess;
    private string? trouble;
    private string? toldKind;
    private long toldRefused;

    /// <summary>Makes a forwarder that works when <see cref="Step"/> is called.</summary>
    internal InfluxForwarder(InfluxOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell, IInfluxWriter writer, Func<WindowReading, double?>? fullStroke = null)
    {
        (this.options, this.store, this.clock, this.tell, this.writer) = (options, store, clock, tell, writer);
        var seed = BackOff.SeedOf(feeder);
        var rows = new WaitingRows(store);
        server = new(clock, seed, TimeSpan.FromSeconds(1), DeniedWait);
        var full = fullStroke is null ? null : new FullVoltageField(fullStroke);
        lanes = [.. InfluxTable.All.Select((table, i) => new InfluxLane(table, rows, options.BatchRows, new(clock, seed + i + 1, DeniedWait, BackOff.MostAsked), clock, full))];
    }

    /// <summary>Gets how the output stands; may be asked from any thread.</summary>
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

    /// <summary>Starts to forward.</summary>
    /// <param name="options">Where to.</param>
    /// <param name="store">The store's file; it need not be there yet.</param>
    /// <param name="feeder">The feeder's name, from which the spread of waits is drawn.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="tell">Hears, on the forwarder's own thread, of trouble (true) and of its end, in a sentence.</param>
    /// <param name="fullStroke">Gives the stroke in metres that full voltage would make in a window with a voltage, null where it cannot be told; null where nobody knows.</param>
    public static InfluxForwarder Start(InfluxOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell, Func<WindowReading, double?>? fullStroke = null)
    {
        var forwarder = new InfluxForwarder(options, store, feeder, clock, tell, new InfluxWriter(options, clock), fullStroke);
        forwarder.running = Task.Run(forwarder.Run);
        return forwarder;
    }

    /// <summary>Sends one batch of each table and gives how long to wait before the next step.</summary>
    internal async Task<TimeSpan> Step(CancellationToken token)
    {
        if (server.Left is var left && left > TimeSpan.Zero)
        {
            return left;
        }

        try
        {
            Open();
            var more = false;
            foreach (var lane in lanes)
            {
                if (await lane.Step(writer, token).ConfigureAwait(false) is not { } answer)
                {
                    continue;
                }

                if (answer.Kind is InfluxAnswerKind.Later or InfluxAnswerKind.Denied)
                {
                    return Failed(answer);
                }

                server.Succeeded();
                trouble = null;
                lastSuccess = answer.Kind == InfluxAnswerKind.Taken ? clock.GetUtcNow() : lastSuccess;
                more |= lane.Held > 0 && lane.Wait == TimeSpan.Zero;
            }

            Say(lanes.Select(lane => lane.RefusesAll).FirstOrDefault(words => words is not null) is { } all ? InfluxWords.RefusesAll(all, options) : trouble, "refuses");
            return more ? TimeSpan.Zero : options.Interval;
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            var wait = server.Failed();
            trouble = $"{InfluxWords.Name(options)}: the rows to be forwarded cannot be read, or what is done noted ({e.Message.ReplaceLineEndings(" ")}); check the store's folder and its room";
            Say(trouble, "store");
            Close();
            return wait;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Cancel();
        _ = running is null || Task.WaitAny([running], ClosePatience) == 0;
        writer.Dispose();
        Close();
        stop.Dispose();
    }

    private async Task Run()
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                var wait = await Step(stop.Token).ConfigureAwait(false);
                if (wait > TimeSpan.Zero)
                {
                    await Task.Delay(wait, clock, stop.Token).ConfigureAwait(false);
                }
            }
        }
        catch (OperationCanceledException)
        {
            // The end was asked for; what is not confirmed is sent at the next start.
        }
        catch (Exception e)
        {
            Say($"{InfluxWords.Name(options)}: forwarding has stopped ({e.Message.ReplaceLineEndings(" ")}): rows are held; restart the program and report this", "stopped");
        }
    }

    private TimeSpan Failed(InfluxAnswer answer)
    {
        var asked = answer.RetryAfter;
        var wait = server.Failed(answer.Kind == InfluxAnswerKind.Denied && (asked is null || asked < DeniedWait) ? DeniedWait : asked);
        foreach (var lane in lanes)
        {
            lane.Look();
        }

        trouble = InfluxWords.Of(answer, options);
        Say(trouble, answer.Kind.ToString() + (answer.Words.Length > 2 ? answer.Words[..3] : ""));
        return wait;
    }

    private void Open()
    {
        if (file is null)
        {
            file = ForwardingFile.Open(ForwardingFile.Beside(store, "influx"), clock);
            foreach (var lane in lanes)
            {
                lane.File = file;
            }
        }
    }

    private void Close()
    {
        file?.Dispose();
        file = null;
    }

    /// <summary>Renews the health record and says what has changed: each kind of trouble once, its end, and rows set aside.</summary>
    private void Say(string? words, string kind)
    {
        var refused = lanes.Sum(lane => lane.Refused);
        var now = new ForwardingHealth(lanes.Sum(lane => lane.Sent), lanes.Sum(lane => lane.Held), refused, lanes.Sum(lane => lane.Gone), lastSuccess, words);
        lock (gate)
        {
            health = now;
        }

        // The first, the tenth, the hundredth: a run of them must not fill the log.
        if (refused > 0 && (toldRefused == 0 || refused >= 10 * toldRefused))
        {
            toldRefused = refused;
            tell(true, FormattableString.Invariant(
                $"{InfluxWords.Name(options)} has refused {refused} rows in all, the last {lanes.Select(lane => lane.LastRefusal).Last(said => said is not null)}; they are set aside in {ForwardingFile.Beside(store, "influx")}, table refused"));
        }

        var newKind = words is null ? null : kind;
        if (newKind == toldKind)
        {
            return;
        }

        toldKind = newKind;
        tell(words is not null, words ?? FormattableString.Invariant($"{InfluxWords.Name(options)} takes rows again; {now.Held} wait"));
    }
}
