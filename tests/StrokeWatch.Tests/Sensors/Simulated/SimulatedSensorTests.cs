using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class SimulatedSensorTests
{
    private readonly FakeTimeProvider time = new();
    private readonly MemoryLink link = new(1 << 20);
    private readonly SampleBlock block = new(3, 64);

    [Fact]
    public void The_mean_rate_is_exact_however_late_each_step_is()
    {
        var random = new Random(3);
        using var sensor = new SimulatedSensor(new Tray(), link, new() { RateHz = 3333.25, SamplesPerFrame = 20 }, time);
        var elapsed = TimeSpan.Zero;
        while (elapsed < TimeSpan.FromSeconds(60))
        {
            var step = TimeSpan.FromMilliseconds(random.Next(1, 90));
            time.Advance(step);
            elapsed += step;
            var wait = sensor.Step();
            Assert.InRange(elapsed.TotalSeconds * 3333.25 - sensor.Samples, 0, 20.001);
            Assert.InRange(wait.TotalSeconds, 0, 20 / 3333.25);
        }
    }

    [Fact]
    public void The_tray_arrives_through_the_protocol_to_half_a_count()
    {
        using var sensor = new SimulatedSensor(new Tray(), link, new() { Firmware = "sand feeder, simulated" }, time);
        time.Advance(TimeSpan.FromSeconds(3));
        _ = sensor.Step();
        using var source = LiveSensors.Make(new(), link, time);
        var sample = 0L;
        while (source.Read(block) == SourceState.Samples)
        {
            Assert.Equal(sample / 4000.0, block.StartSeconds, 9);
            for (var i = 0; i < block.Count; i++, sample++)
            {
                for (var channel = 0; channel < 3; channel++)
                {
                    Assert.Equal(Tray.Value(sample, channel), block[channel][i], 0.51 * 392.266 / 32767);
                }
            }
        }

        Assert.Equal(12000, sample);
        Assert.Equal("sand feeder, simulated", source.Sensor!.Firmware);
        Assert.Equal(392.266, source.Info.FullScale!.Value, 0.001);
        Assert.Empty(source.Counters.Rejected);
        Assert.Equal(0, source.Counters.Gaps);
    }

    [Fact]
    public void A_full_cable_loses_whole_frames_and_the_listener_knows_how_many()
    {
        var narrow = new MemoryLink(1000);
        using var sensor = new SimulatedSensor(new Tray(), narrow, new(), time);
        using var source = LiveSensors.Make(new(), narrow, time);
        long heard = 0;
        for (var i = 0; i < 50; i++)
        {
            time.Advance(TimeSpan.FromMilliseconds(i % 5 == 0 ? 200 : 8));
            _ = sensor.Step();
            while (source.Read(block) == SourceState.Samples)
            {
                heard += block.Count;
            }
        }

        Assert.True(sensor.DroppedFrames > 0);
        Assert.Empty(source.Counters.Rejected);
        Assert.True(source.Counters.Gaps > 1);
        Assert.Equal(heard, source.Counters.Samples);
        Assert.InRange(sensor.Samples - heard - source.Counters.MissingSamples, 0, 32 * 5);
    }

    [Fact]
    public void It_sends_by_itself_in_real_time()
    {
        using var sensor = new SimulatedSensor(new Tray(), link, new(), TimeProvider.System);
        var from = TimeProvider.System.GetTimestamp();
        sensor.Start();
        using var source = LiveSensors.Make(new(), link, TimeProvider.System);
        while (source.Counters.Samples < 4000 && TimeProvider.System.GetElapsedTime(from) < TimeSpan.FromSeconds(20))
        {
            _ = source.Read(block);
        }

        Assert.True(source.Counters.Samples >= 4000);
        Assert.True(TimeProvider.System.GetElapsedTime(from) >= TimeSpan.FromSeconds(0.99));
        Assert.Equal(0, source.Counters.Gaps);
    }

    [Fact]
    public void It_ends_with_its_tray()
    {
        using var sensor = new SimulatedSensor(new Tray(100), link, new(), time);
        time.Advance(TimeSpan.FromSeconds(1));
        _ = sensor.Step();
        Assert.True(sensor.Ended);
        Assert.Equal(100, sensor.Samples);
    }

    /// <summary>A tray that moves at 60 Hz, a little differently on each axis.</summary>
    private sealed class Tray(long length = long.MaxValue) : ISampleSource
    {
        private long next;

        public SourceInfo Info { get; } = new() { Format = "tray", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = 4000 };

        public SourceCounters Counters { get; } = new();

        public static double Value(long sample, int channel) => 100 * (channel + 1) * Math.Sin((Math.Tau * 60 * sample / 4000.0) + channel);

        public SourceState Read(SampleBlock block)
        {
            var count = (int)Math.Min(block.Capacity, length - next);
            for (var channel = 0; channel < 3; channel++)
            {
                for (var i = 0; i < count; i++)
                {
                    block.Fill(channel)[i] = Value(next + i, channel);
                }
            }

            next += count;
            block.SetCount(count);
            return count == 0 ? SourceState.End : SourceState.Samples;
        }

        public void Dispose()
        {
        }
    }
}
