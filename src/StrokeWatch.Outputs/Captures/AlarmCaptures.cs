using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Outputs.Captures;

/// <summary>
/// Keeps the waveform around each alarm: the newest samples of every device in memory of fixed size, and on a thread of its own a file for those around an alarm.
/// What measures only copies; it never waits for the disk.
/// </summary>
/// <remarks>Two alarms within one capture's span share it: it goes on until its time after the last of them, up to its greatest length.</remarks>
public sealed class AlarmCaptures : IDisposable
{
    private const int MostRequests = 64;
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(0.2);
    private static readonly TimeSpan TroubleLook = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan Grace = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(10);

    private readonly object gate = new();
    private readonly AlarmCaptureOptions options;
    private readonly TimeProvider clock;
    private readonly Action<AlarmWaveform> kept;
    private readonly Action<string> removed;
    private readonly CaptureFolder folder;
    private readonly SensorFeed[] feeds;
    private readonly List<OpenCapture> open = [];
    private readonly Queue<(AlarmId Id, DateTimeOffset At, long Stamp, (SampleRing? Ring, long Head)[] Places)> requests = new();
    private readonly Thread thread;
    private string? trouble;
    private bool closing;

    /// <summary>Starts; captures that a kill left half written are finished first, on the thread of its own.</summary>
    /// <param name="options">Of which alarms, where, how much.</param>
    /// <param name="devices">The places of each device's sensors; one empty list where there is one sensor.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="kept">Hears, on the writer's thread, of each alarm's capture once that is safe on the disk.</param>
    /// <param name="removed">Hears, on the writer's thread, of each capture that was removed to make room.</param>
    public AlarmCaptures(AlarmCaptureOptions options, IReadOnlyList<IReadOnlyList<SensorPlace>> devices, TimeProvider clock, Action<AlarmWaveform> kept, Action<string> removed)
    {
        (this.options, this.clock, this.kept, this.removed) = (options, clock, kept, removed);
        folder = new(options);
        var seconds = (options.Before + options.Lag).TotalSeconds;
        feeds = [.. devices.Select(places => new SensorFeed(clock, seconds, places))];
        thread = new Thread(Run) { IsBackground = true, Name = "captures" };
        thread.Start();
    }

    /// <summary>Gets what is wrong and what to do, in a sentence; null where nothing is. Any thread may ask.</summary>
    public string? Trouble => Volatile.Read(ref trouble);

    /// <summary>Gets how it stands; reads the folder. Any thread may ask.</summary>
    public CaptureHealth Health => new(options.Folder, folder.Room(), options.QuotaBytes, Writing, Trouble);

    /// <summary>Gets the bytes of memory that hold the newest samples.</summary>
    public long Bytes => feeds.Sum(feed => feed.Ring?.Bytes ?? 0);

    /// <summary>Gets how many captures are being written.</summary>
    public int Writing
    {
        get
        {
            lock (gate)
            {
                return open.Count + requests.Count;
            }
        }
    }

    /// <summary>Takes a block of a device as read; belongs to the thread that measures it.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info) => feeds[device].Take(block, info);

    /// <summary>Hears an alarm; never waits. Of those whose waveform is not wanted, and of an end, nothing comes.</summary>
    public void Alarm(in AlarmTransition transition)
    {
        if (!transition.Raised || !options.Kinds.Contains(transition.Kind))
        {
            return;
        }

        var at = (new AlarmId(transition.Kind, transition.Place), clock.GetUtcNow(), clock.GetTimestamp(), feeds.Select(feed => (feed.Ring, feed.Ring?.Head ?? 0)).ToArray());
        lock (gate)
        {
            if (requests.Count < MostRequests && !closing)
            {
                requests.Enqueue(at);
                Monitor.PulseAll(gate);
            }
        }
    }

    /// <summary>Finishes what is being written, as far as it has come.</summary>
    public void Dispose()
    {
        lock (gate)
        {
            closing = true;
            Monitor.PulseAll(gate);
        }

        thread.Join(ClosePatience);
    }

    private void Run()
    {
        Guard(() =>
        {
            foreach (var partial in folder.Unfinished())
            {
                Tell(Unfinished.Finish(partial));
            }

            folder.Tidy();
        });
        while (true)
        {
            List<(AlarmId, DateTimeOffset, long, (SampleRing? Ring, long Head)[])> asked;
            bool last;
            lock (gate)
            {
                if (requests.Count == 0 && !closing)
                {
                    // The wait is real time: a clock of the tests' own must not keep the thread asleep.
                    _ = open.Count > 0 ? Monitor.Wait(gate, Look) : trouble is not null ? Monitor.Wait(gate, TroubleLook) : Monitor.Wait(gate);
                }

                asked = [.. requests];
                last = closing;
            }

            foreach (var (id, at, stamp, places) in asked)
            {
                for (var device = 0; device < feeds.Length; device++)
                {
                    if (places[device].Ring is { } ring && (id.Place is not { } place || !Elsewhere(place) || feeds[device].Places.Contains(place)))
                    {
                        Guard(() => Begin(id, at, stamp, ring, places[device].Head, feeds[device]));
                    }
                }
            }

            lock (gate)
            {
                for (var i = 0; i < asked.Count; i++)
                {
                    requests.Dequeue();
                }
            }

            Step(last);
            if (last)
            {
                return;
            }
        }
    }

    /// <summary>Says whether a place is a device's; else an alarm of it is everybody's.</summary>
    private bool Elsewhere(SensorPlace place) => Array.Exists(feeds, feed => feed.Places.Contains(place));

    private void Begin(AlarmId id, DateTimeOffset at, long stamp, SampleRing ring, long head, SensorFeed feed)
    {
        var rate = ring.RateHz;
        var (before, after) = ((long)(options.Before.TotalSeconds * rate), (long)(options.After.TotalSeconds * rate));
        var deadline = stamp + (long)((options.After + Grace).TotalSeconds * clock.TimestampFrequency);
        Remove(folder.MakeRoom((long)((before + after) * 4.0 * ring.Width) + (1 << 16)));
        if (open.Find(one => ReferenceEquals(one.Ring, ring) && head <= one.End && head + after - one.Begun <= options.Longest.TotalSeconds * rate) is { } shared)
        {
            shared.Add(id, at, head + after, deadline);
            return;
        }

        var from = Math.Max(0, head - before);
        var path = folder.Path(at, id, feed.Places.Count > 0 && feeds.Length > 1 ? SensorPlaces.Name(feed.Places[0]) : "");
        folder.AddFeeder(path);
        var begun = new OpenCapture(path, ring, from, at - Silence(ring, stamp) - TimeSpan.FromSeconds((head - from + ring.MissingBetween(from, head)) / rate));
        lock (gate)
        {
            open.Add(begun);
        }

        begun.Add(id, at, head + after, deadline);
    }

    /// <summary>Gives how long nothing has come: the newest sample is so much older than the alarm. What has come since the alarm leaves it at nothing.</summary>
    private TimeSpan Silence(SampleRing ring, long stamp)
    {
        var quiet = clock.GetElapsedTime(ring.Stamp, stamp);
        return quiet > TimeSpan.Zero ? quiet : TimeSpan.Zero;
    }

    private void Step(bool last)
    {
        foreach (var one in open.ToArray())
        {
            var done = true;
            Guard(
                () =>
                {
                    done = one.Step() || last || clock.GetTimestamp() >= one.Deadline;
                    if (done)
                    {
                        Tell(one.Finish());
                        Volatile.Write(ref trouble, null);
                    }
                },
                one.Abandon);
            if (done)
            {
                lock (gate)
                {
                    open.Remove(one);
                }
            }
        }

        if (trouble is not null && open.Count == 0 && !last)
        {
            Guard(() =>
            {
                Remove(folder.MakeRoom(1 << 20));
                Volatile.Write(ref trouble, null);
            });
        }
    }

    private void Tell(IReadOnlyList<AlarmWaveform> waveforms)
    {
        foreach (var waveform in waveforms)
        {
            kept(waveform);
        }
    }

    private void Remove(IReadOnlyList<string> files)
    {
        foreach (var file in files)
        {
            removed(file);
        }
    }

    private void Guard(Action work, Action? otherwise = null)
    {
        try
        {
            work();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Volatile.Write(ref trouble, $"waveforms of alarms cannot be kept in {options.Folder} ({e.Message.ReplaceLineEndings(" ").TrimEnd('.')})");
            try
            {
                otherwise?.Invoke();
            }
            catch (Exception again) when (again is IOException or UnauthorizedAccessException)
            {
                // What is left is tidied away at the next start.
            }
        }
    }
}
