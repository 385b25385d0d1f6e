using StrokeWatch.Measurement.Drive;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>
/// The project's sine estimators against the Cramér-Rao bounds of a real sinusoid in white noise: sd(A) = σ√(2/N), sd(f) = (fs/2π)√(24σ²/(A²N(N²−1))),
/// sd(θ) at the first sample with the frequency free √(4σ²(2N−1)/(A²N(N+1))), known √(2σ²/(A²N)). Sources: Kay, Fundamentals of Statistical Signal Processing I,
/// ex. 3.14 (from memory); Rife and Boorstyn, IEEE Trans. IT-20 (1974). The digits are the bounds at the rows' numbers; seeded runs, accepted within 10 %.
/// </summary>
public sealed class CramerRaoTests
{
    private const double Phase = 0.4;

    [Theory]
    [InlineData(1, 0.01, 1000, 1000, 60, 0.0004472135955, 0.0002465619009)]
    [InlineData(11.0432405737, 0.02, 3200, 3200, 60, 0.0005, 2.496227981e-05)]
    [InlineData(1, 0.1, 256, 1024, 60, 0.008838834765, 0.01949256875)]
    public void The_harmonic_fit_spreads_as_the_bound_says(double amplitude, double sigma, int count, double rate, double hertz, double ofAmplitude, double ofFrequency)
    {
        const int Runs = 1000;
        var random = new Random(41);
        var fit = new HarmonicFit(1, 1);
        double[] amplitudes = new double[Runs], frequencies = new double[Runs];
        for (var run = 0; run < Runs; run++)
        {
            Assert.True(fit.Fit([Samples(amplitude, sigma, count, hertz / rate, random)], 0, count, hertz / rate, 1, follow: true));
            amplitudes[run] = Math.Sqrt(fit.Cosine(0)[1] * fit.Cosine(0)[1] + fit.Sine(0)[1] * fit.Sine(0)[1]);
            frequencies[run] = fit.MeasuredFrequency * rate;
        }

        Within(ofAmplitude, amplitudes);
        Within(ofFrequency, frequencies);
        Assert.Equal(amplitude, amplitudes.Average(), 4 * ofAmplitude / Math.Sqrt(Runs) + sigma * sigma / (count * amplitude));
        Assert.Equal(hertz, frequencies.Average(), 4 * ofFrequency / Math.Sqrt(Runs));
    }

    [Theory]
    [InlineData(1, 0.01, 1000, 1000, 500, 0.0004472135955, 0.0002465619009, 0.0008937567895, 0.0004472135955)]
    [InlineData(11.0432405737, 0.02, 3200, 3200, 500, 0.0005, 2.496227981e-05, 9.053191082e-05, 4.527656503e-05)]
    [InlineData(1, 0.1, 256, 1024, 800, 0.008838834765, 0.01949256875, 0.0176260055, 0.008838834765)]
    public void The_sine_fit_with_three_and_four_parameters_spreads_as_the_bounds_say(
        double amplitude, double sigma, int count, double rate, int runs, double ofAmplitude, double ofFrequency, double ofFreePhase, double ofKnownPhase)
    {
        var random = new Random(42);
        double[] amplitudes = new double[runs], frequencies = new double[runs], free = new double[runs], known = new double[runs];
        for (var run = 0; run < runs; run++)
        {
            var samples = Samples(amplitude, sigma, count, 60 / rate, random);
            var four = SineFit.Free(samples, 60 / rate);
            (amplitudes[run], frequencies[run], free[run]) = (four.Amplitude, four.CyclesPerSample * rate, four.Phase);
            known[run] = SineFit.Known(samples, 60 / rate).Phase;
        }

        Within(ofAmplitude, amplitudes);
        Within(ofFrequency, frequencies);
        Within(ofFreePhase, free);
        Within(ofKnownPhase, known);
        Assert.Equal(Phase, known.Average(), 4 * ofKnownPhase / Math.Sqrt(runs));
    }

    // Rice's mean, exact: σ = A/√2 and 100 samples add 0.00501269367; the abstract of Corrêa Alegria, Measurement 2009, says below 0.5 % for 0 dB.
    [Fact]
    public void Noise_as_strong_as_the_sine_enlarges_a_hundred_samples_amplitude_by_half_a_percent()
    {
        const int Runs = 40_000;
        var random = new Random(43);
        var fit = new HarmonicFit(1, 1);
        var sum = 0.0;
        for (var run = 0; run < Runs; run++)
        {
            fit.Fit([Samples(1, Math.Sqrt(0.5), 100, 0.1, random)], 0, 100, 0.1, 1, follow: false);
            sum += Math.Sqrt(fit.Cosine(0)[1] * fit.Cosine(0)[1] + fit.Sine(0)[1] * fit.Sine(0)[1]);
        }

        // The mean of 40,000 runs is known to 0.0005 (k = 1).
        Assert.Equal(1.00501269367, sum / Runs, 0.0015);
    }

    private static double[] Samples(double amplitude, double sigma, int count, double frequency, Random random)
    {
        var samples = new double[count];
        for (var n = 0; n < count; n++)
        {
            samples[n] = amplitude * Math.Cos(2 * Math.PI * frequency * n + Phase) + sigma * Signal.Gauss(random);
        }

        return samples;
    }

    private static void Within(double bound, double[] values)
    {
        var mean = values.Average();
        Assert.InRange(Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / (values.Length - 1)) / bound, 0.9, 1.1);
    }
}
