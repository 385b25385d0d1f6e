using System.Collections.Concurrent;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>
/// Reads one of several sources on a thread of its own. Blocks are few and go round: where the measurement is late, each takes more at a time, some two seconds together, so that what the kernel holds (16 KB of a
/// terminal, less than a second) does not overflow; later still the source waits, and loses samples that it counts.
/// </summary>
internal sealed class PortReader : IDisposable
{
    private const int BlockSamples = 1024;
    private const int Blocks = 32;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.1);

    /// <summary>How long samples gather before they are read, once half of the blocks wait to be measured.</summary>
    private static readonly TimeSpan Gather = TimeSpan.FromSeconds(0.1);

    private readonly ISampleSource source;
    private readonly Func<double> now;
    private readonly Action<ArrivedBlock> arrived;
    private readonly BlockingCollection<ArrivedBlock> free = new(Blocks);
    private readonly Thread thread;
    private readonly ManualResetEventSlim halt = new();
    private volatile bool stopped;

    /// <summary>Makes the reader; <see cref="Start"/> starts it.</summary>
    /// <param name="name">The thread's name.</param>
    /// <param name="source">The source; it is not disposed of.</param>
    /// <param name="now">The host's clock, in seconds.</param>
    /// <param name="arrived">Takes each block, on the reader's thread.</param>
    public PortReader(string name, ISampleSource source, Func<double> now, Action<ArrivedBlock> arrived)
    {
        this.source = source;
        this.now = now;
        this.arrived = arrived;
        for (var i = 0; i < Blocks; i++)
        {
            free.Add(new(new SampleBlock(source.Info.Axes.Count, BlockSamples)));
        }

        thread = new Thread(Run) { IsBackground = true, Name = name };
    }

    /// <summary>Gets whether the source has ended, or its reading failed.</summary>
    public bool Ended { get; private set; }

    /// <summary>Gets what reading failed with; null where it did not.</summary>
    public Exception? Trouble { get; private set; }

    /// <summary>Starts reading.</summary>
    public void Start() => thread.Start();

    /// <summary>Takes a block back that has been measured.</summary>
    public void Return(ArrivedBlock block) => free.Add(block);

    /// <summary>Tells the thread to stop, without waiting for it.</summary>
    public void Stop()
    {
        stopped = true;
        halt.Set();
    }

    /// <summary>Stops reading; a source answers within some 0.2 s.</summary>
    public void Dispose()
    {
        Stop();
        if (thread.IsAlive)
        {
            thread.Join();
        }

        halt.Dispose();
        free.Dispose();
    }

    private void Run()
    {
        try
        {
            var full = false;
            while (!stopped)
            {
                if (!full && free.Count < Blocks / 2)
                {
                    _ = halt.Wait(Gather);
                }

                if (!free.TryTake(out var block, Patience))
                {
                    continue;
                }

                var state = source.Read(block.Block);
                full = block.Block.Count == BlockSamples;
                if (state == SourceState.Samples)
                {
                    (block.Info, block.HostSeconds) = (source.Info, now());
                    arrived(block);
                    continue;
                }

                free.Add(block);
                if (state == SourceState.End)
                {
                    break;
                }
            }
        }
        catch (Exception trouble)
        {
            Trouble = trouble;
        }

        Ended = true;
    }
}
