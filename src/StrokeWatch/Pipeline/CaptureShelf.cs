using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Joins what keeps waveforms of alarms to sources, alarms, store and log.</summary>
internal sealed class CaptureShelf : IChainListener, IDisposable
{
    private readonly AlarmCaptures captures;

    private CaptureShelf(AlarmCaptures captures) => this.captures = captures;

    /// <summary>Gets what is wrong, in a sentence; null where nothing is.</summary>
    public string? Trouble => captures.Trouble;

    /// <summary>Gets how it stands; reads the folder.</summary>
    public CaptureHealth Health => captures.Health;

    /// <summary>Starts it; null where no waveforms are to be kept.</summary>
    /// <param name="options">Of which alarms, where, how much.</param>
    /// <param name="sources">The devices.</param>
    /// <param name="store">Where it is written what is kept.</param>
    /// <param name="time">The clock.</param>
    /// <param name="log">Is told of captures kept and removed.</param>
    public static CaptureShelf? Start(AlarmCaptureOptions? options, IReadOnlyList<ISampleSource> sources, SqliteStore store, TimeProvider time, ILogger log) => options is null ? null : new(new(
        options,
        [.. sources.Select(source => (IReadOnlyList<SensorPlace>)[.. source.Info.Places.Distinct()])],
        time,
        waveform =>
        {
            _ = store.Capture(waveform);
            log.Information("Alarm {Alarm:l}: waveform kept in {File:l}, {Length:0.0} s, {Lost} samples lost", waveform.Id.ToString(), waveform.File, waveform.LengthSeconds, waveform.LostSamples);
        },
        file =>
        {
            _ = store.CaptureRemoved(file);
            log.Information("Capture {File:l} was removed to make room", file);
        }));

    /// <summary>Takes a block of a device as read.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info) => captures.Take(device, block, info);

    /// <summary>Gives what takes the blocks of the only device.</summary>
    public IBlockListener Only(ISampleSource source) => new OneDevice(this, source);

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => captures.Alarm(transition);

    /// <inheritdoc/>
    public void Dispose() => captures.Dispose();

    private sealed class OneDevice(CaptureShelf shelf, ISampleSource source) : IBlockListener
    {
        public void Take(SampleBlock block) => shelf.Take(0, block, source.Info);
    }
}
