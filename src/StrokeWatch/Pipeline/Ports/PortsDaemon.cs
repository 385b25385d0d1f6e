using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>Runs several live sources, each on a clock and a reading thread of its own, until it is told to stop; all measuring and judging is done on the caller's thread.</summary>
/// <param name="feeder">The feeder.</param>
/// <param name="sources">The sources; each says the places of its sensors.</param>
/// <param name="delays">The alarms' delays.</param>
/// <param name="listener">Hears what is measured and alarmed.</param>
/// <param name="time">The clock.</param>
/// <param name="desk">Where work is done that alarms must not wait for.</param>
internal sealed class PortsDaemon(
    FeederDescription feeder, IReadOnlyList<ISampleSource> sources, AlarmDelays delays, IChainListener listener, TimeProvider time, IDesk desk)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.1);

    private readonly BlockingCollection<(int Port, ArrivedBlock Block)> queue = [];
    private readonly long begun = time.GetTimestamp();

    /// <summary>Gets what takes the raw blocks of each source, by its number; null for nothing.</summary>
    public Action<int, SampleBlock, SourceInfo>? Blocks { get; init; }

    private double Now => time.GetElapsedTime(begun).TotalSeconds;

    /// <summary>Runs until cancelled or until all sources have ended.</summary>
    /// <param name="beat">Called after each block, and ten times a second where none comes, as the sign of life.</param>
    /// <param name="stop">Ends the run.</param>
    public void Run(Action<SourceState> beat, CancellationToken stop)
    {
        var joint = new JointMeasurement(feeder, delays, listener);
        List<MeasuredPort> ports = [.. sources.Select(source => new MeasuredPort(joint, feeder, [.. source.Info.Places], delays, desk))];
        ports.ForEach(joint.Add);
        var heard = new double[ports.Count];
        List<PortReader> readers = [.. sources.Select((source, i) => new PortReader($"sensor {i + 1}", source, () => Now, block => queue.Add((i, block))))];
        Array.Fill(heard, Now);
        readers.ForEach(reader => reader.Start());
        try
        {
            while (!stop.IsCancellationRequested && (queue.Count > 0 || readers.Exists(reader => !reader.Ended)))
            {
                var came = queue.TryTake(out var next, Patience);
                if (came)
                {
                    heard[next.Port] = next.Block.HostSeconds;
                    Blocks?.Invoke(next.Port, next.Block.Block, next.Block.Info!);
                    ports[next.Port].Take(next.Block.Block, next.Block.Info!, next.Block.HostSeconds);
                    readers[next.Port].Return(next.Block);
                }

                Listen(ports, heard);
                desk.Deliver();
                beat(came ? SourceState.Samples : SourceState.Nothing);
                if (readers.Find(reader => reader.Trouble is not null) is { Trouble: { } trouble })
                {
                    ExceptionDispatchInfo.Throw(trouble);
                }
            }
        }
        finally
        {
            readers.ForEach(reader => reader.Stop());
            readers.ForEach(reader => reader.Dispose());
        }

        ports.ForEach(port => port.Finish());
        desk.Finish();
        listener.Finish();
        desk.Finish();
    }

    /// <summary>Tells each device that has been quiet for longer than its samples take to come how long that is.</summary>
    private void Listen(List<MeasuredPort> ports, double[] heard)
    {
        // What waits in the queue has been heard: silence counts only once it is empty.
        if (queue.Count > 0)
        {
            return;
        }

        for (var i = 0; i < ports.Count; i++)
        {
            var quiet = Now - heard[i];
            if (quiet >= Patience.TotalSeconds)
            {
                ports[i].Silence(quiet);
            }
        }
    }
}
