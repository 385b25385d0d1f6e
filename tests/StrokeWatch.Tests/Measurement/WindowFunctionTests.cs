using StrokeWatch.Measurement.Drive;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Source: Heinzel, Rüdiger, Schilling, MPI/AEI 2002, and Harris, Proc. IEEE 66 (1978), table I: the Hann window.</summary>
public sealed class WindowFunctionTests
{
    private static readonly double[] Window = HannWindow.Periodic(8192);

    [Fact]
    public void Its_coherent_gain_is_one_half() => Assert.Equal(0.5, Window.Average(), 12);

    [Fact]
    public void Its_equivalent_noise_bandwidth_is_one_and_a_half_bins() =>
        Assert.Equal(1.5, Window.Length * Window.Sum(w => w * w) / Math.Pow(Window.Sum(), 2), 10);

    [Theory]
    [InlineData(0.1, 0.99356731625)]
    [InlineData(0.25, 0.9603374039)]
    [InlineData(0.5, 0.84882636316)]
    public void It_attenuates_a_line_between_bins_as_the_closed_form_says(double bins, double attenuation)
    {
        double re = 0, im = 0;
        for (var n = 0; n < Window.Length; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * bins * n / Window.Length);
            (re, im) = (re + Window[n] * cos, im + Window[n] * sin);
        }

        Assert.Equal(attenuation, Math.Sqrt(re * re + im * im) / Window.Sum(), 6);
    }
}
