using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Page.Waves;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Page.Waves;

/// <summary>Two devices: one with two sensors, one with one; each is found by its place, and asked once however many ask.</summary>
public sealed class WaveTapsTests
{
    private const double Rate = 2000;
    private const double Hz = 50;

    private static readonly FeederDescription Feeder = new()
    {
        Name = "Sand feeder",
        Drive = new(Hz, 1, Free: false),
        Band = new(Length.FromMillimetres(1.5), Length.FromMillimetres(1.8), Length.FromMillimetres(1.9)),
        Sensors = [new(SensorPlace.Front, [], new()), new(SensorPlace.Rear, [], new()), new(SensorPlace.Body, [], new())],
    };

    private readonly WaveTaps taps = new(
        Feeder, [new Device(SensorPlace.Body), new Device(SensorPlace.Front, SensorPlace.Rear)],
        () => new WindowReading { StartSeconds = 0, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = 1e-3, FrequencyHz = Hz }, TimeProvider.System);

    [Theory]
    [InlineData(null, 1.0)]
    [InlineData(SensorPlace.Front, 1.0)]
    [InlineData(SensorPlace.Rear, 2.0)]
    [InlineData(SensorPlace.Body, 3.0)]
    public async Task Each_place_shows_its_own_sensor_and_the_tray_s_first_where_none_is_named(SensorPlace? place, double millimetres)
    {
        Assert.Equal([SensorPlace.Front, SensorPlace.Rear, SensorPlace.Body], taps.Places);
        var asked = Enumerable.Range(0, 30).Select(_ => taps.Look(place)).ToList();
        var one = Assert.Single(asked.Distinct());
        Feed(one);
        var look = await one.WaitAsync(TimeSpan.FromSeconds(20));
        Assert.Null(look.Reason);
        Assert.Equal(place ?? SensorPlace.Front, look.Place);
        Assert.Equal(millimetres, 1e3 * look.Portrait!.StrokeMetres, 0.01);
    }

    /// <summary>Feeds both devices until a look has come, as sensors do: on a busy machine it may begin late.</summary>
    private void Feed(Task look)
    {
        var began = DateTime.UtcNow;
        var n = 0;
        while (!look.IsCompleted && DateTime.UtcNow - began < TimeSpan.FromSeconds(20))
        {
            Give(0, n, 3);
            Give(1, n, 1, 2);
            n += 100;
            Thread.Sleep(10);
        }
    }

    private void Give(int device, int first, params double[] millimetres)
    {
        var block = new SampleBlock(millimetres.Length, 100) { StartSeconds = first / Rate };
        for (var channel = 0; channel < millimetres.Length; channel++)
        {
            for (var i = 0; i < 100; i++)
            {
                block.Fill(channel)[i] = 5e-4 * millimetres[channel] * Math.Pow(2 * Math.PI * Hz, 2) * Math.Cos(2 * Math.PI * Hz * (first + i) / Rate);
            }
        }

        block.SetCount(100);
        taps.Take(device, block, device == 0 ? new Device(SensorPlace.Body).Info : new Device(SensorPlace.Front, SensorPlace.Rear).Info);
    }

    private sealed class Device(params SensorPlace[] places) : ISampleSource
    {
        public SourceInfo Info { get; } = new() { Format = "frames", Axes = [.. places.Select(_ => Axis.X)], Places = places, RateHz = Rate };

        public SourceCounters Counters { get; } = new();

        public SourceState Read(SampleBlock block) => SourceState.Nothing;

        public void Dispose()
        {
        }
    }
}
