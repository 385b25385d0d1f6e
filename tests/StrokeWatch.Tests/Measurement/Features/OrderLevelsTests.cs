using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Features;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Features;

/// <summary>Levels of signals whose orders are given in closed form.</summary>
public sealed class OrderLevelsTests
{
    private const double Rate = 3200;

    [Theory]
    [InlineData(50, 0)]
    [InlineData(60, 4e-3)]
    [InlineData(100, -2e-3)]
    public void Orders_are_read_as_they_were_made(double hertz, double clockError)
    {
        var levels = Read(Signal.Feeder(1.5e-3, hertz, 20, 0.1, 3, (2, 0.05), (3, 0.02), (5, 0.01)), hertz, clockError);
        Assert.Equal([0.05, 0.02, 0, 0.01], new[] { 2, 3, 4, 5 }.Select(order => levels.Order(order) / (double)levels.Order(1)), (a, b) => Math.Abs(a - b) < 5e-4);
        Assert.Equal(0.1, levels.Noise, 0.01);

        // Order k has the phase 1.3 k − 0.7 k on the fundamental's clock.
        Assert.Equal(1.2, Math.Atan2(levels.SecondImaginary, levels.SecondReal), 0.02);
        Assert.Equal(1.8, Math.Atan2(levels.ThirdImaginary, levels.ThirdReal), 0.03);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.0 / 3)]
    public void Parts_of_the_drives_frequency_are_read_beside_it_whole_cycles_or_not(double part)
    {
        var carrier = Signal.Feeder(1.5e-3, 50, 20, 0.05, 4, (2, 0.05));
        double[] Shaken(double t)
        {
            var values = carrier(t);
            var along = 2 * Math.Sin(2 * Math.PI * 50 * part * t);
            return [values[0] + (along * Math.Cos(Math.PI / 9)), values[1], values[2] + (along * Math.Sin(Math.PI / 9))];
        }

        var levels = Read(Shaken, 50, 1e-3);
        Assert.Equal(2, part == 0.5 ? levels.Half : levels.Third, 0.1);
        Assert.Equal(Math.Sqrt(2), levels.Slow, 0.2);
        Assert.True((part == 0.5 ? levels.Third : levels.Half) < 0.4);
    }

    [Fact]
    public void A_clean_feeder_shows_no_part_orders_and_little_that_is_slow()
    {
        var levels = Read(Signal.Feeder(1.5e-3, 50, 20, 0.05, 4, (2, 0.05)), 50, 0);
        Assert.InRange(levels.Half, 0, 0.02);
        Assert.InRange(levels.Slow, 0, 0.02);
        Assert.InRange(levels.Across / levels.Order(1), 0, 1e-3);
    }

    private static OrderLevels Read(Func<double, double[]> signal, double hertz, double clockError)
    {
        var heard = new Signal();
        var meter = new StrokeMeter(new() { RateHz = Rate, NominalHz = hertz, Axes = [Axis.X, Axis.Y, Axis.Z] });
        foreach (var block in Signal.Blocks(signal, Rate, 3, clockError))
        {
            meter.Add(block, heard);
        }

        return heard.Windows.Last(window => window.Levels is not null).Levels!.Value;
    }
}
