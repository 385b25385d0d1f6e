using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Frames;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>A sensor that is not there: it takes tray acceleration from a source and sends it as frames at its own pace.</summary>
/// <remarks>
/// Like a real one it does not wait for its listener: where there is no room, whole frames are lost, and the running number of the
/// samples tells the listener so. Its clock is exact.
/// </remarks>
public sealed class SimulatedSensor : IDisposable
{
    private readonly ISampleSource tray;
    private readonly FrameSender sender;
    private readonly SimulatedSensorSettings settings;
    private readonly TimeProvider time;
    private readonly FrameEncoder encoder;
    private readonly SampleBlock block;
    private readonly ManualResetEvent stop = new(false);
    private readonly byte[] frame = new byte[FrameHead.MaxLength];
    private Pacer pacer;
    private long nextAnnouncement;
    private Thread? thread;

    /// <summary>
    /// Makes a sensor that is ready to send; its clock starts now. The source gives m/s², of one sensor or of up to eight with the same axes in
    /// the order x, y, z, and is not disposed of; other axes or too many samples a frame are refused by an <see cref="ArgumentException"/>.
    /// </summary>
    public SimulatedSensor(ISampleSource tray, IByteSink sink, SimulatedSensorSettings settings, TimeProvider time)
    {
        this.tray = tray;
        sender = new(sink);
        this.settings = settings;
        var sensors = Math.Max(1, tray.Info.Places.Distinct().Count());
        List<Axis> axes = [.. tray.Info.Axes.Distinct().Order()];
        if (sensors > FrameHead.MostSensors || !tray.Info.Axes.SequenceEqual(Enumerable.Repeat(axes, sensors).SelectMany(own => own)))
        {
            throw new ArgumentException("A frame holds up to eight sensors, each with the same axes in the order x, y, z.", nameof(tray));
        }

        block = new(tray.Info.Axes.Count, settings.SamplesPerFrame);
        this.time = time;
        pacer = new(time, settings.RateHz);
        encoder = new(new FrameHead
        {
            Kind = tray.Info.HasSupply ? FrameKind.SupplySamples : tray.Info.Places.Count > 0 ? FrameKind.SeveralSamples : FrameKind.Samples,
            Sensors = (byte)sensors,
            Axes = FrameAxes.Bits(axes),
            Format = SampleFormat.Int16,
            RateMilliHz = (uint)Math.Round(settings.RateHz * 1000),
            Scale = (float)(settings.FullScale / short.MaxValue),
            Rail = (uint)short.MaxValue,
            Start = settings.StartNumber,
            SupplyScale = (float)(settings.SupplyFullScale / short.MaxValue),
            SupplyRail = (uint)short.MaxValue,
        });
        ArgumentOutOfRangeException.ThrowIfGreaterThan(settings.SamplesPerFrame, encoder.MaxSamples, nameof(settings));
    }

    /// <summary>Gets the samples that were put into frames, sent or lost.</summary>
    public long Samples => (long)encoder.Counter;

    /// <summary>Gets the frames that found no room.</summary>
    public long DroppedFrames => sender.Dropped;

    /// <summary>Gets whether the source of tray acceleration has ended.</summary>
    public bool Ended { get; private set; }

    /// <summary>Starts sending on a thread of its own; the clock starts anew.</summary>
    public void Start()
    {
        pacer = new(time, settings.RateHz);
        thread = new Thread(Run) { IsBackground = true, Name = "simulated sensor" };
        thread.Start();
    }

    /// <summary>Sends all frames that are due and says how long it is until the next one is.</summary>
    public TimeSpan Step()
    {
        _ = sender.SendRest();
        while (!Ended && Samples + settings.SamplesPerFrame <= pacer.Due)
        {
            if (Samples >= nextAnnouncement)
            {
                sender.Send(frame.AsSpan(0, encoder.Announcement(frame, settings.Firmware, Clock)));
                nextAnnouncement = Samples + (long)settings.RateHz;
            }

            if (!SendSamples())
            {
                break;
            }
        }

        return pacer.Until(Samples + settings.SamplesPerFrame);
    }

    /// <summary>Stops sending.</summary>
    public void Dispose()
    {
        _ = stop.Set();
        thread?.Join();
        stop.Dispose();
    }

    private ulong Clock => (ulong)Math.Round(encoder.Counter * 1e6 / settings.RateHz);

    private void Run()
    {
        TimeSpan wait;
        do
        {
            // Less than a millisecond would be a wait of none, and a loop that burns the processor.
            wait = Step() + TimeSpan.FromMilliseconds(1);
        }
        while (!Ended && !stop.WaitOne(wait));
    }

    private bool SendSamples()
    {
        block.Clear();
        var state = tray.Read(block);
        Ended = state == SourceState.End;
        if (state != SourceState.Samples)
        {
            return false;
        }

        encoder.Counter += (ulong)block.MissingBefore;
        sender.Send(frame.AsSpan(0, encoder.Samples(frame, block, 0, block.Count, Clock)));
        return true;
    }
}
