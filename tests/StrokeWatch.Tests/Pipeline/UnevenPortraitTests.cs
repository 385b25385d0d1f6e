using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

public sealed class UnevenPortraitTests
{
    [Fact]
    public void The_portrait_of_unevenly_spaced_samples_has_their_stroke_and_places()
    {
        const double rate = 1600;
        var random = new Random(17);
        var times = Enumerable.Range(0, 800).Select(n => 1000 + (n + 0.4 * random.NextDouble()) / rate).ToArray();
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(1.7), 50);
        double[][] samples = [[.. times.Select(time => amplitude * Math.Cos(2 * Math.PI * 50 * (time - 1000)))]];
        var settings = new MeterSettings { Axes = [Axis.Z], RateHz = rate, NominalHz = 50 };

        var told = WindowPortrait.Take(settings, samples, 50 / rate, times)!;
        var blind = WindowPortrait.Take(settings, samples, 50 / rate)!;

        Assert.Equal(1.7e-3, told.StrokeMetres, 1e-9);
        Assert.True(Math.Abs(blind.StrokeMetres - 1.7e-3) > 1e-7);
        Assert.Equal(50 * (times[^1] - times[0]), told.CyclesAt(799) - told.CyclesAt(0), 1e-5);
    }
}
