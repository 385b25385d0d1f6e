using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Outputs.Store;

/// <summary>
/// The embedded store: takes rows without ever waiting on the disk, writes them on a thread of its own, and says when each is safely on the disk.
/// </summary>
/// <remarks>
/// Windows are committed together every ten seconds or two hundred rows, alarms and events at once. A row whose task answered true survives a kill at any
/// instant and a power cut. Trouble with the disk never throws: it shows in <see cref="Health"/>, rows wait in bounded memory and are tried again.
/// </remarks>
public sealed class SqliteStore : IDisposable
{
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(15);

    private readonly object gate = new();
    private readonly StoreOptions options;
    private readonly TimeProvider clock;
    private readonly StoreQueue queue;
    private readonly ITimer timer;
    private readonly Thread thread;
    private readonly WindowDates dates = new();
    private StoreState state = StoreState.Opening;
    private string? trouble;
    private DateTimeOffset? troubleSince;
    private (long Windows, long Notes) noted;
    private DateTimeOffset? lastCommit;
    private long windows;
    private long notes;
    private bool ticked = true;
    private bool urgent;
    private bool closing;
    private bool begun;

    /// <summary>Starts the store; the file is opened, checked and if need be replaced on the store's own thread.</summary>
    public SqliteStore(StoreOptions options, TimeProvider clock)
    {
        this.options = options;
        this.clock = clock;
        queue = new StoreQueue(options.MostWindows, options.MostNotes);
        timer = clock.CreateTimer(_ => Wake(tick: true), null, options.CommitInterval, options.CommitInterval);
        thread = new Thread(Run) { IsBackground = true, Name = "store" };
        thread.Start();
    }

    /// <summary>Gets how the store is now.</summary>
    public StoreHealth Health
    {
        get
        {
            lock (gate)
            {
                return new(state, trouble, queue.Count, windows, notes, queue.DroppedWindows, queue.DroppedNotes, lastCommit);
            }
        }
    }

    /// <summary>Takes a window that ended now; the task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Window(in WindowReading reading, Verdict verdict)
    {
        DateTimeOffset begin;
        lock (gate)
        {
            begin = dates.Begin(clock.GetUtcNow(), reading.LengthSeconds);
        }

        return Take(new WindowRow(begin, reading, verdict));
    }

    /// <summary>Takes an alarm raised or cleared now; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Alarm(in AlarmTransition transition) => Take(new AlarmRow(clock.GetUtcNow(), transition));

    /// <summary>Takes a step of an alarm's life; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Journal(AlarmStep step) => Take(new JournalRow(step));

    /// <summary>Takes an event of now; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Event(StoreEventKind kind, string text) => Take(new EventRow(clock.GetUtcNow(), kind, text));

    /// <summary>Takes a stretch of running summed up; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Stretch(Stretch stretch) => Take(new StretchRow(stretch));

    /// <summary>Takes a capture around an alarm; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Capture(AlarmWaveform waveform) => Take(new CaptureRow(waveform));

    /// <summary>Takes that a capture was removed now to make room. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> CaptureRemoved(string file) => Take(new CaptureGoneRow(clock.GetUtcNow(), file));

    /// <summary>Takes a finding raised or cleared; it is written at once. The task answers true once it is committed, false where it was dropped.</summary>
    public Task<bool> Finding(FindingTransition transition) => Take(new FindingRow(transition));

    /// <summary>Asks for a commit now; the task answers true once all rows given so far are committed, and waits as long as the database is in trouble.</summary>
    public async Task<bool> Flush()
    {
        Task<bool[]> all;
        lock (gate)
        {
            all = Task.WhenAll(queue.Peek(notesOnly: false).Select(r => r.Confirmed));
        }

        Wake(tick: false);
        return Array.TrueForAll(await all.ConfigureAwait(false), committed => committed);
    }

    /// <summary>Writes what waits, in one last attempt, and closes; rows that could not be written answer false.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            closing = true;
            Monitor.PulseAll(gate);
        }

        thread.Join(ClosePatience);
        timer.Dispose();
        lock (gate)
        {
            queue.Remove(queue.Peek(notesOnly: false), committed: false);
        }
    }

    private Task<bool> Take(StoreRow row)
    {
        lock (gate)
        {
            if (closing)
            {
                row.Settle(committed: false);
                return row.Confirmed;
            }

            queue.Add(row);
            urgent |= row is not WindowRow || (options.FirstWindowAtOnce && !begun);
            begun |= row is WindowRow;
            if (urgent || queue.Windows >= options.CommitRows)
            {
                Monitor.PulseAll(gate);
            }
        }

        return row.Confirmed;
    }

    private void Wake(bool tick)
    {
        lock (gate)
        {
            ticked |= tick;
            urgent |= !tick;
            Monitor.PulseAll(gate);
        }
    }

    private void Run()
    {
        using var session = new StoreSession(options, clock, Note);
        var last = false;
        while (!last)
        {
            bool full;
            lock (gate)
            {
                while (!closing && !ticked && !urgent && !(state == StoreState.Working && queue.Windows >= options.CommitRows))
                {
                    Monitor.Wait(gate);
                }

                last = closing;
                ticked = urgent = false;
                full = state == StoreState.Full;
            }

            Attempt(session, notesOnly: full && !session.HasRoom());
        }

        // The last attempt may itself have had something to note.
        if (Health is { State: StoreState.Working, Waiting: > 0 })
        {
            Attempt(session, notesOnly: false);
        }

        lock (gate)
        {
            state = StoreState.Closed;
        }
    }

    private void Attempt(StoreSession session, bool notesOnly)
    {
        IReadOnlyList<StoreRow> rows;
        lock (gate)
        {
            rows = queue.Peek(notesOnly);
        }

        if (notesOnly && rows.Count == 0)
        {
            return;
        }

        var outcome = session.Write(rows, holdRoom: !notesOnly);
        lock (gate)
        {
            if (outcome.State == StoreState.Working)
            {
                var committed = rows.Count(r => r is WindowRow);
                windows += committed;
                notes += rows.Count - committed;
                lastCommit = rows.Count > 0 ? clock.GetUtcNow() : lastCommit;
                queue.Remove(rows, committed: true);
            }

            if (!notesOnly || outcome.State != StoreState.Working)
            {
                Become(outcome);
            }
        }

        session.Purge();
    }

    private void Become(StoreOutcome outcome)
    {
        var now = clock.GetUtcNow();
        if (outcome.State != StoreState.Working)
        {
            troubleSince ??= now;
        }
        else
        {
            if (troubleSince is { } since)
            {
                Note(StoreEventKind.StoreTrouble, $"the database could not be written from {since.UtcDateTime:yyyy-MM-dd'T'HH:mm:ss'Z'} until now: {trouble}");
            }

            var lost = (Windows: queue.DroppedWindows - noted.Windows, Notes: queue.DroppedNotes - noted.Notes);
            if (lost.Windows + lost.Notes > 0)
            {
                noted = (queue.DroppedWindows, queue.DroppedNotes);
                Note(StoreEventKind.StoreGap, $"{lost.Windows} windows and {lost.Notes} alarms or events were dropped");
            }

            troubleSince = null;
        }

        urgent |= outcome.TryAgain;
        state = outcome.State;
        trouble = outcome.Trouble;
    }

    private void Note(StoreEventKind kind, string text)
    {
        lock (gate)
        {
            queue.Add(new EventRow(clock.GetUtcNow(), kind, text));
            urgent = true;
        }
    }
}
