using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Frames;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks.Sturdy;

/// <summary>A port behind which two stretches of a feeder's life go round and round as fast as they are read, in frames of the real protocol; each read drives the clock on by what it gave.</summary>
internal sealed class LoopPort : IByteSourceOpener, IByteSource
{
    private const int PerFrame = 32;
    private readonly DrivenTime time;
    private readonly FrameEncoder encoder;
    private readonly List<SampleBlock> blocks = [];
    private readonly byte[] frame = new byte[FrameHead.MaxLength];
    private readonly double seconds;
    private readonly double rate;
    private readonly Action stop;
    private int next;
    private bool announced;

    /// <summary>Simulates two stretches, the second of which comes once after so many of the first; they are to be given out for so many seconds.</summary>
    public LoopPort(DrivenTime time, FeederScenario calm, FeederScenario eventful, int calms, double seconds, Action stop)
    {
        (this.time, this.seconds, this.stop, rate) = (time, seconds, stop, calm.Sensor.RateHz);
        var quiet = Simulated(calm);
        for (var n = 0; n < calms; n++)
        {
            blocks.AddRange(quiet);
        }

        blocks.AddRange(Simulated(eventful));

        encoder = new(new()
        {
            Kind = FrameKind.SupplySamples,
            Axes = FrameAxes.All,
            Format = SampleFormat.Int16,
            RateMilliHz = (uint)(1000 * rate),
            Scale = (float)(32 * Gravity.Standard / short.MaxValue),
            Rail = (uint)short.MaxValue,
            Start = 7,
            SupplyScale = 0.03125f,
            SupplyRail = (uint)short.MaxValue,
        });
    }

    private static List<SampleBlock> Simulated(FeederScenario scenario)
    {
        var found = new List<SampleBlock>();
        using var source = new SimulatedFeederSource(scenario);
        for (var block = new SampleBlock(3, PerFrame); source.Read(block) == SourceState.Samples; block = new(3, PerFrame))
        {
            found.Add(block);
        }

        return found;
    }

    /// <summary>Gets the seconds given so far.</summary>
    public double Given => encoder.Counter / rate;

    public string Name => "loop";

    public OpenResult Open() => OpenResult.Opened(this);

    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        count = 0;
        if (Given >= seconds)
        {
            stop();
            return ReadStatus.Nothing;
        }

        var before = Given;
        while (count + frame.Length <= buffer.Length)
        {
            var clock = (ulong)(encoder.Counter * 1e6 / rate);
            var length = announced ? encoder.Samples(frame, blocks[next], 0, blocks[next].Count, clock) : encoder.Announcement(frame, "loop", clock);
            frame.AsSpan(0, length).CopyTo(buffer[count..]);
            count += length;
            next = announced ? (next + 1) % blocks.Count : next;
            announced = true;
        }

        time.Advance(TimeSpan.FromSeconds(Given - before));
        return ReadStatus.Data;
    }

    public void Dispose()
    {
    }
}
