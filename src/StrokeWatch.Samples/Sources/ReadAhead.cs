using System.Runtime.ExceptionServices;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Sources;

/// <summary>A capture read on a thread of its own, a few blocks ahead of whoever measures: reading and measuring then share two processors, and what is measured is the same.</summary>
/// <remarks>It is for captures only: a live source keeps its own time. The source behind it is not disposed, and belongs to this one until this one is.</remarks>
public sealed class ReadAhead : ISampleSource
{
    /// <summary>Blocks read at most ahead; when half of them are used up the reader is woken, so that the two threads seldom wait for each other.</summary>
    private const int Ahead = 6;

    private readonly ISampleSource source;
    private readonly Slot[] slots;
    private readonly object signal = new();
    private readonly Thread thread;
    private int filled;
    private int next;
    private bool ended;
    private bool stopping;

    /// <summary>Begins to read a source.</summary>
    /// <param name="source">The source, at its start.</param>
    /// <param name="blockSamples">The most samples of a block; those asked to be filled must be as large.</param>
    public ReadAhead(ISampleSource source, int blockSamples)
    {
        this.source = source;
        slots = [.. Enumerable.Range(0, Ahead).Select(_ => new Slot(new(source.Info.Axes.Count, blockSamples)))];
        thread = new(Run) { IsBackground = true, Name = "read ahead" };
        thread.Start();
    }

    /// <inheritdoc/>
    public SourceInfo Info => source.Info;

    /// <summary>Gets what the source has counted: all of it once the end was read, before that more than was given.</summary>
    public SourceCounters Counters => source.Counters;

    /// <inheritdoc/>
    /// <exception cref="Exception">What reading the source has thrown, when its place has come.</exception>
    public SourceState Read(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (ended)
        {
            block.Clear();
            return SourceState.End;
        }

        lock (signal)
        {
            while (filled == 0)
            {
                Monitor.Wait(signal);
            }
        }

        var slot = slots[next];
        next = (next + 1) % Ahead;
        var state = slot.State;
        ended = state == SourceState.End || slot.Trouble is not null;
        slot.Trouble?.Throw();
        block.Swap(slot.Block);
        lock (signal)
        {
            filled--;
            if (filled == Ahead / 2)
            {
                Monitor.PulseAll(signal);
            }
        }

        return state;
    }

    /// <summary>Stops reading and waits for the thread's end.</summary>
    public void Dispose()
    {
        lock (signal)
        {
            stopping = true;
            Monitor.PulseAll(signal);
        }

        thread.Join();
    }

    private void Run()
    {
        for (var (i, going) = (0, true); going && Room(); i = (i + 1) % Ahead)
        {
            var slot = slots[i];
            try
            {
                slot.State = source.Read(slot.Block);
            }
#pragma warning disable CA1031 // Whatever it is, it is thrown again where the block is asked for.
            catch (Exception trouble)
#pragma warning restore CA1031
            {
                slot.Trouble = ExceptionDispatchInfo.Capture(trouble);
            }

            going = slot.Trouble is null && slot.State != SourceState.End;
            lock (signal)
            {
                filled++;
                if (filled == 1)
                {
                    Monitor.PulseAll(signal);
                }
            }
        }
    }

    /// <summary>Waits until half of the blocks are free once all were full; false where reading is to stop.</summary>
    private bool Room()
    {
        lock (signal)
        {
            while (filled == Ahead && !stopping)
            {
                while (filled > Ahead / 2 && !stopping)
                {
                    Monitor.Wait(signal);
                }
            }

            return !stopping;
        }
    }

    private sealed class Slot(SampleBlock block)
    {
        public SampleBlock Block { get; } = block;

        public SourceState State { get; set; }

        public ExceptionDispatchInfo? Trouble { get; set; }
    }
}
