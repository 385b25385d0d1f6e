using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.EndToEnd.Tests.Serial;

/// <summary>The listening side: a live source on a thread of its own, every value held against the one that was sent.</summary>
internal sealed class CableReader : IByteSourceOpener, IDisposable
{
    private readonly IByteSourceOpener port;
    private readonly Thread thread;
    private readonly SemaphoreSlim openings = new(0);
    private readonly List<SensorEvent> events = [];
    private volatile bool stop;
    private long next;

    public CableReader(string path)
    {
        port = SerialPorts.Opener(new() { Path = path });
        Source = LiveSensors.Make(new(), this, TimeProvider.System, Note);
        thread = new Thread(Run) { IsBackground = true };
        thread.Start();
    }

    public string Name => port.Name;

    public LiveSensorSource Source { get; }

    /// <summary>The lengths of the gaps in order; 0 where nobody knows.</summary>
    public List<long> Gaps { get; } = [];

    public IReadOnlyList<SensorEvent> Events => events;

    /// <summary>What was wrong with the samples; empty where nothing was.</summary>
    public string Fault { get; private set; } = string.Empty;

    /// <summary>The running number of the sample that comes next.</summary>
    public long Next => Interlocked.Read(ref next);

    public SourceState State { get; private set; } = SourceState.Nothing;

    public OpenResult Open()
    {
        var result = port.Open();
        if (result.Source is not null)
        {
            openings.Release();
        }

        return result;
    }

    public void WaitForOpening()
    {
        if (!openings.Wait(TimeSpan.FromSeconds(20)))
        {
            throw new TimeoutException("The port was not opened within 20 s.");
        }
    }

    /// <summary>Waits until all samples before a running number are accounted for.</summary>
    public void WaitForSample(long sample) => WaitFor(() => Next == sample, $"sample {sample}");

    public void WaitFor(Func<bool> reached, string what)
    {
        if (!SpinWait.SpinUntil(() => reached() || Fault.Length > 0, TimeSpan.FromSeconds(20)) || Fault.Length > 0)
        {
            throw new TimeoutException($"Waited for {what}; at sample {Next}, state {State}. {Fault}");
        }
    }

    public void Dispose()
    {
        stop = true;
        thread.Join(TimeSpan.FromSeconds(10));
        Source.Dispose();
        openings.Dispose();
    }

    private void Run()
    {
        var block = new SampleBlock(3, 1000);
        while (!stop && Fault.Length == 0)
        {
            State = Source.Read(block);
            if (State == SourceState.Samples)
            {
                Check(block);
            }
        }
    }

    private void Check(SampleBlock block)
    {
        if (block.GapBefore)
        {
            Gaps.Add(block.MissingBefore);
            next += block.MissingBefore;
        }

        for (var axis = 0; axis < 3; axis++)
        {
            for (var i = 0; i < block.Count; i++)
            {
                var wanted = CableDevice.Value(next + i, axis);
                if (!block[axis][i].Equals(wanted))
                {
                    Fault = $"sample {next + i}, axis {axis}: {block[axis][i]} came, {wanted} was sent";
                }
            }
        }

        Interlocked.Add(ref next, block.Count);
    }

    private void Note(SensorEvent happened)
    {
        events.Add(happened);
        if (happened.Kind == SensorEventKind.Restarted)
        {
            Interlocked.Exchange(ref next, 0);
        }
    }
}
