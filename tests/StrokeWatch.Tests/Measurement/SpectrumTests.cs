using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>
/// Lines, densities and powers under the Hann window. Sources: Heinzel, Rüdiger, Schilling, MPI/AEI 2002; Harris, Proc. IEEE 66 (1978). The attenuation of a line
/// between bins and the noise bandwidth stand in <see cref="WindowFunctionTests"/>.
/// </summary>
public sealed class SpectrumTests
{
    // 1.5 cos(2π·10.3n/64 + 0.7): |X₁₀| = 1.41497632 and |X₁₁| = 1.08197387 scaled by 2/Σw; two-line interpolation gives bin 10.2999544857 and 1.5000174457, the rest being the
    // leak of the negative frequency (derived, computed in double precision). The interpolation's arithmetic is the test's own: the program finds lines by LineScan.
    [Fact]
    public void Two_lines_of_a_Hann_window_tell_frequency_and_amplitude_between_bins()
    {
        var samples = Between();
        var (low, high) = (Line(samples, 10), Line(samples, 11));
        Assert.Equal(1.41497632, low, 8);
        Assert.Equal(1.08197387, high, 8);
        var ratio = high / low;
        var offset = (2 * ratio - 1) / (ratio + 1);
        Assert.Equal(0.7646586369, ratio, 9);
        Assert.Equal(0.2999544857, offset, 9);
        Assert.Equal(1.5000174457, low * Math.PI * offset * (1 - offset * offset) / Math.Sin(Math.PI * offset), 9);
    }

    [Fact]
    public void The_scan_for_the_drive_finds_the_same_line_within_a_hundredth_of_a_bin() =>
        Assert.Equal(10.3, 64 * new LineScan().Find([Between()], 0, 64, 8.0 / 64, 13.0 / 64), 0.01);

    // LS = LSD·√(fs/N) for a window without taper; rounding to steps q has the density q/√(6fs): q = 1e-3 at 10 kHz 4.082482905e-6 per √Hz (Heinzel, section 13).
    [Fact]
    public void The_noise_that_a_spectrum_of_orders_states_is_the_density_of_rounding_times_the_bandwidth()
    {
        const double Step = 1e-3, Rate = 10_000;
        var count = (int)(0.5 * Rate);
        var random = new Random(44);
        var samples = new double[count];
        for (var n = 0; n < count; n++)
        {
            samples[n] = Step * Math.Round((Math.Cos(2 * Math.PI * 50.0137 * n / Rate) + 3 * Step * random.NextDouble()) / Step);
        }

        var settings = new MeterSettings { Axes = [Axis.Z], RateHz = Rate, NominalHz = 50 };
        var portrait = WindowPortrait.Take(settings, [samples], 50.0137 / Rate)!;

        // The dither of three steps adds its own variance, 9q²/12, to that of rounding, q²/12.
        var density = Math.Sqrt(10) * Step / Math.Sqrt(6 * Rate);
        Assert.Equal(4.082482905e-6, density / Math.Sqrt(10), 14);
        Assert.Equal(density * Math.Sqrt(Rate / count), portrait.NoiseDeviation, 0.05 * density * Math.Sqrt(Rate / count));
    }

    // Parseval: rms² = Σ(line rms²)/NENBW; leaving NENBW = 1.5 out over-reads by √1.5 = 1.224744871.
    [Fact]
    public void Lines_of_a_Hann_window_add_up_to_the_total_rms_over_the_noise_bandwidth()
    {
        const int Count = 4096;
        var random = new Random(45);
        var samples = Enumerable.Range(0, Count).Select(_ => Signal.Gauss(random)).ToArray();
        var mean = samples.Average();
        var window = HannWindow.Periodic(Count);
        var bandwidth = Count * window.Sum(w => w * w) / Math.Pow(window.Sum(), 2);
        var power = 0.0;
        for (var k = 1; k < Count / 2; k++)
        {
            power += Math.Pow(Line([.. samples.Select(value => value - mean)], k, window), 2) / 2;
        }

        var rms = Math.Sqrt(samples.Sum(value => (value - mean) * (value - mean)) / Count);
        Assert.Equal(1.5, bandwidth, 10);
        Assert.Equal(rms, Math.Sqrt(power / bandwidth), 0.03 * rms);
        Assert.Equal(1.224744871 * rms, Math.Sqrt(power), 0.03 * rms);
    }

    private static double[] Between() => [.. Enumerable.Range(0, 64).Select(n => 1.5 * Math.Cos(2 * Math.PI * 10.3 * n / 64 + 0.7))];

    private static double Line(double[] samples, int bin) => Line(samples, bin, HannWindow.Periodic(samples.Length));

    private static double Line(double[] samples, int bin, double[] window)
    {
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * bin / samples.Length);
        double cos = 1, sin = 0, re = 0, im = 0;
        for (var n = 0; n < samples.Length; n++)
        {
            re += window[n] * samples[n] * cos;
            im += window[n] * samples[n] * sin;
            (cos, sin) = (cos * stepCos - sin * stepSin, sin * stepCos + cos * stepSin);
        }

        return 2 * Math.Sqrt(re * re + im * im) / window.Sum();
    }
}
