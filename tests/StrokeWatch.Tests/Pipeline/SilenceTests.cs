using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>The way from a silent sensor to its alarm and back, in order of time.</summary>
public sealed class SilenceTests : IChainListener
{
    private const double Rate = 4000;
    private const double Step = 0.2;

    private readonly List<AlarmTransition> heard = [];
    private readonly List<AssessedWindow> windows = [];
    private readonly MeasurementChain chain;

    public SilenceTests()
    {
        var feeder = new FeederDescription
        {
            Name = "Sand feeder",
            Drive = new(50, 1, false),
            Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.90)),
        };
        chain = new(feeder, new(), this);
        var source = new SourceInfo { Format = "frames", Axes = [Axis.Z], RateHz = Rate, RateFrom = RateOrigin.Sensor, Unit = AccelerationUnit.G };
        chain.Begin(ChainSettings.For(feeder, source, Rate));
    }

    [Theory]
    [InlineData(3.0)]
    [InlineData(3.1)]
    [InlineData(3.35)]
    [InlineData(3.49)]
    public void A_lost_sensor_is_alarmed_once_and_cleared_once_in_order_of_time(double seconds)
    {
        Play(0, seconds, gap: false);
        Silent(seconds, 3.0);
        Play(seconds + 3.0, 3, gap: true);

        Assert.Equal([true, false], heard.Select(alarm => alarm.Raised));
        Assert.All(heard, alarm => Assert.Equal(AlarmKind.SensorLost, alarm.Kind));
        Assert.InRange(heard[0].AtSeconds - seconds, 2.0, 2.3);
        Assert.InRange(heard[1].AtSeconds - seconds, 3.0, 3.8);
        InOrder();
    }

    [Theory]
    [InlineData(3.0)]
    [InlineData(3.1)]
    [InlineData(3.35)]
    public void A_silence_shorter_than_its_delay_is_not_counted_twice_with_the_gap_it_leaves(double seconds)
    {
        Play(0, seconds, gap: false);
        Silent(seconds, 1.8);
        Play(seconds + 1.8, 3, gap: true);

        Assert.Empty(heard);
        InOrder();
    }

    [Fact]
    public void A_short_pause_between_bursts_cuts_no_window()
    {
        Play(0, 2.3, gap: false);
        Silent(2.3, 0.2);
        Play(2.3, 2, gap: false);
        chain.Finish();

        Assert.All(windows.SkipLast(1), window => Assert.Equal(0.5, window.Reading.LengthSeconds, 0.01));
        Assert.Equal(4.3, windows.Sum(window => window.Reading.LengthSeconds), 0.05);
    }

    void IChainListener.Window(in AssessedWindow window) => windows.Add(window);

    void IChainListener.Decay(in DecayReading decay)
    {
    }

    void IChainListener.Alarm(in AlarmTransition transition) => heard.Add(transition);

    private void InOrder()
    {
        Assert.Equal(windows.Select(window => window.Reading.StartSeconds).Order(), windows.Select(window => window.Reading.StartSeconds));
        Assert.Equal(heard.Select(alarm => alarm.AtSeconds).Order(), heard.Select(alarm => alarm.AtSeconds));
    }

    private void Silent(double from, double seconds)
    {
        for (var n = 1; n * Step <= seconds + 1e-9; n++)
        {
            chain.Silence(from + (n * Step), Step);
        }
    }

    private void Play(double from, double seconds, bool gap)
    {
        var peak = 0.5 * 1.70e-3 * Math.Pow(2 * Math.PI * 50, 2);
        var block = new SampleBlock(1, 80);
        for (var done = 0; done < seconds * Rate; done += block.Count)
        {
            block.Clear();
            (block.RateHz, block.StartSeconds, block.GapBefore, block.MissingBefore) = (Rate, from + (done / Rate), gap && done == 0, gap && done == 0 ? 1 : 0);
            for (var n = 0; n < block.Capacity; n++)
            {
                block.Fill(0)[n] = peak * Math.Sin(2 * Math.PI * 50 * (from + ((done + n) / Rate)));
            }

            block.SetCount(block.Capacity);
            chain.Take(block);
        }
    }
}
