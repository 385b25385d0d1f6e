using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page;

/// <summary>
/// Smallest and largest stroke of each ten minutes of up to a year, so that long spans are answered without going through millions of windows each time: gathered when a
/// long span is first asked for, a day at a time, the newest first, on a thread beneath the measurement's; about 3 MB a year.
/// </summary>
/// <param name="path">The store.</param>
/// <param name="feeder">The feeder's name.</param>
/// <param name="time">The clock.</param>
internal sealed class StrokeHistory(string path, string feeder, TimeProvider time) : IDisposable
{
    /// <summary>The length of a part in ms.</summary>
    public const long PartMilliseconds = 600_000;

    private const long PartsADay = 144;
    private const long MostParts = 366 * PartsADay;

    /// <summary>Parts so young are read anew each time: their windows may not all be committed.</summary>
    private static readonly TimeSpan Young = TimeSpan.FromMinutes(20);

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    private readonly Lock gate = new();
    private readonly Dictionary<long, StoredColumn> parts = [];
    private readonly CancellationTokenSource stop = new();
    private Task gathering = Task.CompletedTask;
    private long? oldest;
    private long newest;
    private bool whole;

    /// <summary>Begins to gather where need be, and waits a while until a span is; gives the instant back to which it is, null where all of it is.</summary>
    public async Task<DateTimeOffset?> Gather(DateTimeOffset from, TimeSpan patience)
    {
        lock (gate)
        {
            if (gathering.IsCompleted && newest > Settled())
            {
                // The clock was set back: what was gathered ahead of it is no past.
                (oldest, newest, whole) = (null, 0, false);
                parts.Clear();
            }

            if (gathering.IsCompleted && (!whole || newest < Settled()))
            {
                gathering = Task.Factory.StartNew(Run, stop.Token, TaskCreationOptions.LongRunning, TaskScheduler.Default);
            }
        }

        var began = time.GetTimestamp();
        while (Lacks(from) && !gathering.IsCompleted && time.GetElapsedTime(began) < patience)
        {
            await Task.Delay(Pause, time, stop.Token).ConfigureAwait(false);
        }

        lock (gate)
        {
            return whole ? null : DateTimeOffset.FromUnixTimeMilliseconds((oldest ?? Settled()) * PartMilliseconds) is var back && back > from ? back : null;
        }
    }

    /// <summary>Gives the columns of a span, of whole parts each, with the beginning of the first and their width in ms.</summary>
    public (long FromMilliseconds, long Width, IReadOnlyList<StoredColumn> Columns) Columns(StoreReader reader, DateTimeOffset from, DateTimeOffset to, int points)
    {
        var first = from.ToUnixTimeMilliseconds() / PartMilliseconds;
        var last = (to.ToUnixTimeMilliseconds() + PartMilliseconds - 1) / PartMilliseconds;
        var each = Math.Max(1, (last - first + points - 1) / points);
        var columns = new SortedDictionary<int, StoredColumn>();
        void Add(long part, StoredColumn found)
        {
            var index = (int)((part - first) / each);
            columns[index] = columns.TryGetValue(index, out var before)
                ? new(index, Math.Min(before.LeastMetres, found.LeastMetres), Math.Max(before.MostMetres, found.MostMetres), before.Windows + found.Windows)
                : found with { Index = index };
        }

        long young;
        lock (gate)
        {
            young = Math.Max(first, oldest is null ? Settled() : Math.Min(newest, Settled()));
            for (var part = first; part < Math.Min(last, young); part++)
            {
                if (parts.TryGetValue(part, out var known))
                {
                    Add(part, known);
                }
            }
        }

        var start = DateTimeOffset.FromUnixTimeMilliseconds(young * PartMilliseconds);
        foreach (var found in start < to ? reader.StrokeColumns(feeder, start, to, PartMilliseconds) : [])
        {
            Add(young + found.Index, found);
        }

        return (first * PartMilliseconds, each * PartMilliseconds, [.. columns.Values]);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        stop.Cancel();
        if (gathering.Wait(TimeSpan.FromSeconds(5)))
        {
            stop.Dispose();
        }
    }

    private long Settled() => (time.GetUtcNow() - Young).ToUnixTimeMilliseconds() / PartMilliseconds;

    private bool Lacks(DateTimeOffset from)
    {
        lock (gate)
        {
            return !whole && (oldest ?? long.MaxValue / PartMilliseconds) * PartMilliseconds > from.ToUnixTimeMilliseconds();
        }
    }

    private void Run()
    {
        Thread.CurrentThread.Priority = ThreadPriority.BelowNormal;
        try
        {
            using var reader = new StoreReader(path);
            var settled = Settled();
            lock (gate)
            {
                (oldest, newest) = oldest is null ? (settled, settled) : (oldest, newest);
            }

            while (!stop.IsCancellationRequested && newest < settled)
            {
                Take(reader, newest, Math.Min(settled, newest + PartsADay));
            }

            var end = Math.Max(settled - MostParts, (reader.Earliest() ?? time.GetUtcNow()).ToUnixTimeMilliseconds() / PartMilliseconds);
            while (!stop.IsCancellationRequested && oldest > end)
            {
                Take(reader, Math.Max(end, oldest!.Value - PartsADay), oldest.Value);
            }

            lock (gate)
            {
                whole = !stop.IsCancellationRequested;
                foreach (var old in parts.Keys.Where(part => part < settled - MostParts).ToList())
                {
                    parts.Remove(old);
                }
            }
        }
        catch (SqliteException)
        {
            // Whoever asks is told by the answer itself, which reads the store as well; it is gathered on with the next question.
        }
    }

    private void Take(StoreReader reader, long first, long end)
    {
        var found = reader.StrokeColumns(
            feeder, DateTimeOffset.FromUnixTimeMilliseconds(first * PartMilliseconds), DateTimeOffset.FromUnixTimeMilliseconds(end * PartMilliseconds), PartMilliseconds);
        lock (gate)
        {
            foreach (var column in found)
            {
                parts[first + column.Index] = column;
            }

            (oldest, newest) = (Math.Min(oldest!.Value, first), Math.Max(newest, end));
        }
    }
}
