using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Runs a live source through the chain until it is told to stop; silence is counted on its way to the lost-sensor alarm.</summary>
internal sealed class Daemon
{
    private const int BlockSamples = 2048;

    private readonly FeederDescription feeder;
    private readonly ISampleSource source;
    private readonly MeasurementChain chain;
    private readonly IReadOnlyList<IBlockListener> blockListeners;
    private readonly TimeProvider time;
    private readonly IDesk desk;
    private readonly IChainListener listener;
    private double rate;
    private int channels;
    private bool supply;
    private double lastSampleSeconds;

    /// <summary>Makes a daemon for a feeder and a source.</summary>
    /// <param name="feeder">The feeder.</param>
    /// <param name="source">The source.</param>
    /// <param name="delays">The alarms' delays.</param>
    /// <param name="listener">Hears what is measured and alarmed.</param>
    /// <param name="blockListeners">Take the raw blocks.</param>
    /// <param name="time">The clock.</param>
    /// <param name="desk">Where work is done that alarms must not wait for.</param>
    public Daemon(
        FeederDescription feeder, ISampleSource source, AlarmDelays delays, IChainListener listener,
        IReadOnlyList<IBlockListener> blockListeners, TimeProvider time, IDesk desk)
    {
        this.feeder = feeder;
        this.source = source;
        this.blockListeners = blockListeners;
        this.time = time;
        this.desk = desk;
        this.listener = listener;
        chain = new(feeder, delays, listener, desk);
    }

    /// <summary>Runs until cancelled or until the source ends.</summary>
    /// <param name="beat">Called after each read of the source, as the sign of life of the chain.</param>
    /// <param name="stop">Ends the run.</param>
    public void Run(Action<SourceState> beat, CancellationToken stop)
    {
        var block = new SampleBlock(source.Info.Axes.Count, BlockSamples);
        var heard = time.GetTimestamp();
        var silent = TimeSpan.Zero;
        while (!stop.IsCancellationRequested)
        {
            var state = source.Read(block);
            if (state == SourceState.End)
            {
                break;
            }

            if (state == SourceState.Samples)
            {
                Take(block);
                (heard, silent) = (time.GetTimestamp(), TimeSpan.Zero);
            }
            else
            {
                var now = time.GetElapsedTime(heard);
                chain.Silence(lastSampleSeconds + now.TotalSeconds, (now - silent).TotalSeconds);
                silent = now;
            }

            desk.Deliver();
            beat(state);
        }

        chain.Finish();
        desk.Finish();
        listener.Finish();
        desk.Finish();
    }

    private void Take(SampleBlock block)
    {
        if ((block.RateHz ?? source.Info.RateHz) is not { } stated)
        {
            // A source that cannot say its rate yet measures it; until then its samples place nothing in time.
            return;
        }

        if (Math.Abs(stated - rate) > 1e-3 * stated || channels != block.Channels || supply != block.HasSupply)
        {
            (rate, channels, supply) = (stated, block.Channels, block.HasSupply);
            chain.Begin(ChainSettings.For(feeder, source.Info, rate));
        }

        // The chain corrects a calibrated sensor's samples in place: who wants them as read comes first.
        foreach (var listener in blockListeners)
        {
            listener.Take(block);
        }

        chain.Take(block);
        lastSampleSeconds = block.StartSeconds + block.Count / rate;
    }
}
