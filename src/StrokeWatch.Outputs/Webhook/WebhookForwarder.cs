using System.Text;
using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Webhook;

/// <summary>Posts each step of each alarm's life, in order, in a task of its own: whatever the other side does, nothing else waits for it.</summary>
/// <remarks>Steps come from the store's journal, behind a place that moves only when the other side has confirmed: each arrives at least once, with an id to know repeats by.</remarks>
public sealed class WebhookForwarder : IDisposable
{
    private const string Table = "alarm_journal";
    private const int BatchRows = 100;
    private const int MostRefusedRunning = 10;
    private static readonly TimeSpan DeniedWait = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(5);

    private readonly Lock gate = new();
    private readonly WebhookOptions options;
    private readonly string store;
    private readonly TimeProvider clock;
    private readonly Action<bool, string> tell;
    private readonly WebhookSender sender;
    private readonly WaitingRows rows;
    private readonly BackOff off;
    private readonly RowWatch watch;
    private readonly DateTimeOffset begun;
    private readonly CancellationTokenSource stop = new();
    private ForwardingFile? file;
    private Task? running;
    private ForwardingHealth health = new(0, 0, 0, 0, null, null);
    private string? toldKind;
    private int refusedRunning;

    /// <summary>Makes a forwarder that works when <see cref="Step"/> is called.</summary>
    internal WebhookForwarder(WebhookOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell)
    {
        (this.options, this.store, this.clock, this.tell) = (options, store, clock, tell);
        (sender, rows, watch, begun) = (new(options, clock), new(store), new(clock), clock.GetUtcNow());
        off = new(clock, BackOff.SeedOf(feeder), TimeSpan.FromSeconds(1), DeniedWait);
    }

    /// <summary>Gets how the output stands; may be asked from any thread. Rows are steps.</summary>
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

    private string Name => $"Webhook {options.Url.GetLeftPart(UriPartial.Authority)}";

    /// <summary>Starts to post.</summary>
    /// <param name="options">Whom to.</param>
    /// <param name="store">The store's file; it need not be there yet.</param>
    /// <param name="feeder">The feeder's name, from which the spread of waits is drawn.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="tell">Hears, on the forwarder's own thread, of trouble (true) and of its end, in a sentence.</param>
    public static WebhookForwarder Start(WebhookOptions options, string store, string feeder, TimeProvider clock, Action<bool, string> tell)
    {
        var forwarder = new WebhookForwarder(options, store, feeder, clock, tell);
        forwarder.running = Task.Run(forwarder.Run);
        return forwarder;
    }

    /// <summary>Hears that a step is on its way into the store; never waits.</summary>
    public void Alarm() => watch.Hear();

    /// <summary>Posts what waits, until there is none or one is not taken; gives how long to leave the other side alone, zero where that is not needed.</summary>
    internal async Task<TimeSpan> Step(CancellationToken token)
    {
        if (off.Left is var left && left > TimeSpan.Zero)
        {
            return left;
        }

        try
        {
            file ??= Open();
            while (true)
            {
                var waiting = rows.After(Table, file.Place(Table), BatchRows);
                Count(waiting.Held, gone: waiting.Gone);
                if (waiting.Rows.Count == 0)
                {
                    if (refusedRunning == 0)
                    {
                        Say(null, "");
                    }

                    return TimeSpan.Zero;
                }

                foreach (var row in waiting.Rows)
                {
                    var answer = await sender.Post(StepJson.Id(row), StepJson.Write(row), token).ConfigureAwait(false);
                    if (Take(file, row, answer) is { } wait)
                    {
                        return wait;
                    }
                }
            }
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            Say($"{Name}: the steps to be posted cannot be read, or what is done noted ({e.Message.ReplaceLineEndings(" ")}); check the store's folder and its room", "store");
            Close();
            return off.Failed();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Cancel();
        _ = running is null || Task.WaitAny([running], ClosePatience) == 0;
        sender.Dispose();
        Close();
        watch.Dispose();
        stop.Dispose();
    }

    private async Task Run()
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                var wait = await Step(stop.Token).ConfigureAwait(false);
                await (wait > TimeSpan.Zero ? Task.Delay(wait, clock, stop.Token) : watch.Wait(stop.Token)).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException)
        {
            // The end was asked for; what is not confirmed is sent at the next start.
        }
        catch (Exception e)
        {
            Say($"{Name}: posting has stopped ({e.Message.ReplaceLineEndings(" ")}): steps are held; restart the program and report this", "stopped");
        }
    }

    /// <summary>Does with a row as it was answered; gives the wait that is due, null to go on.</summary>
    private TimeSpan? Take(ForwardingFile notes, WaitingRow row, in WebhookAnswer answer)
    {
        switch (answer.Kind)
        {
            case WebhookAnswerKind.Taken:
                notes.Move(Table, row.Place);
                refusedRunning = 0;
                off.Succeeded();
                Count(sent: 1);
                Say(null, "");
                return null;
            case WebhookAnswerKind.Refused when refusedRunning < MostRefusedRunning:
                refusedRunning++;
                notes.Refuse(Table, row.Place, answer.Words, Encoding.UTF8.GetString(StepJson.Write(row)), clock.GetUtcNow());
                Count(refused: 1);
                Say($"{Name} does not want a message ({answer.Words}): it is set aside in {ForwardingFile.Beside(store, "webhook")}, table refused; check what is at that address", "refused");
                return null;
            case WebhookAnswerKind.Later:
                Say($"{Name} cannot be reached or does not take messages now ({answer.Words}): steps of alarms are held and sent later; check the network and what is at that address", "later");
                return off.Failed(answer.RetryAfter);
            default:
                Say($"{Name} does not take messages ({answer.Words}): steps of alarms are held; check `url`, secret_file and what is at that address", "denied" + answer.Words);
                return off.Failed(answer.RetryAfter is { } asked && asked > DeniedWait ? asked : DeniedWait);
        }
    }

    private ForwardingFile Open()
    {
        var opened = ForwardingFile.Open(ForwardingFile.Beside(store, "webhook"), clock);
        _ = FirstPlace.Of(opened, rows, Table, Table, begun);
        return opened;
    }

    private void Close()
    {
        file?.Dispose();
        file = null;
    }

    private void Count(long? held = null, int sent = 0, int refused = 0, long gone = 0)
    {
        lock (gate)
        {
            health = health with
            {
                Held = held ?? Math.Max(0, health.Held - sent - refused),
                Sent = health.Sent + sent,
                Refused = health.Refused + refused,
                Gone = health.Gone + gone,
                LastSuccess = sent > 0 ? clock.GetUtcNow() : health.LastSuccess,
            };
        }
    }

    private void Say(string? words, string kind)
    {
        lock (gate)
        {
            health = health with { Trouble = words };
        }

        var newKind = words is null ? null : kind;
        if (newKind != toldKind)
        {
            toldKind = newKind;
            tell(words is not null, words ?? $"{Name} takes messages again");
        }
    }
}
