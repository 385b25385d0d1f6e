using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Fourier coefficients of a truncated sine, derived in closed form and checked by quadrature: fundamental, second to fifth harmonic.</summary>
public sealed class TruncatedSineTests
{
    [Theory]
    [InlineData(0.95, 0.986679989, 0.0122749404, -0.0103600497)]
    [InlineData(0.9, 0.9626139265, 0.0316345583, -0.0220176526)]
    [InlineData(0.8, 0.8959119613, 0.0733385978, -0.0310955655)]
    [InlineData(0.5, 0.608997781, 0.137832224, 0.0275664448)]
    public void Both_sides_cut_leave_odd_harmonics(double level, double first, double third, double fifth)
    {
        var fit = Fit(phase => Math.Clamp(Math.Sin(phase), -level, level));

        Assert.Equal(first, fit.Sine(0)[1], 2e-6);
        Assert.Equal(third, fit.Sine(0)[3], 2e-6);
        Assert.Equal(fifth, fit.Sine(0)[5], 2e-6);
        Assert.Equal(0, fit.Sine(0)[2], 2e-6);
        Assert.Equal(0, fit.Cosine(0)[2], 2e-6);
    }

    [Theory]
    [InlineData(0.95, 0.9933399945, -0.00336373721, -0.00646049496, -0.00613747021, -0.00570461705)]
    [InlineData(0.9, 0.9813069633, -0.00953839884, -0.0175747546, -0.0158172791, -0.0135677106)]
    [InlineData(0.8, 0.9479559807, -0.02711972, -0.0458366236, -0.0366692989, -0.0260352022)]
    public void One_side_cut_leaves_a_mean_and_even_harmonics_too(double level, double first, double mean, double second, double third, double fourth)
    {
        // Cosine series about the clipped peak.
        var fit = Fit(phase => Math.Min(Math.Cos(phase), level));

        Assert.Equal(mean, fit.Cosine(0)[0], 2e-6);
        Assert.Equal(first, fit.Cosine(0)[1], 2e-6);
        Assert.Equal(second, fit.Cosine(0)[2], 2e-6);
        Assert.Equal(third, fit.Cosine(0)[3], 2e-6);
        Assert.Equal(fourth, fit.Cosine(0)[4], 2e-6);
    }

    [Fact]
    public void Displacement_of_a_harmonic_mix_is_exact_by_omega_arithmetic()
    {
        // X_k = -A_k/(2πkf)²: a third harmonic of 0.9 of the acceleration is a tenth of the displacement, in phase opposition at the peak: 2 · (1 - 0.1).
        var fit = Fit(phase => Math.Cos(phase) - 0.9 * Math.Cos(3 * phase));
        var path = new DisplacementPath(1, 40);
        path.Work(fit, 1 / (2 * Math.PI), default);

        Assert.Equal(2, path.FundamentalPeakToPeak, 1e-9);
        Assert.Equal(PeakToPeak(phase => Math.Cos(phase) - 0.1 * Math.Cos(3 * phase)), path.PeakToPeak, 2e-6);
    }

    private static HarmonicFit Fit(Func<double, double> wave)
    {
        const int Cycles = 20;
        const int Count = 40_001;
        const double Frequency = Cycles / (double)Count;
        var samples = Enumerable.Range(0, Count).Select(n => wave(2 * Math.PI * Frequency * (n - 0.5 * (Count - 1)))).ToArray();
        var fit = new HarmonicFit(1, 40);
        Assert.True(fit.Fit([samples], 0, Count, Frequency, 40, follow: false));
        return fit;
    }

    private static double PeakToPeak(Func<double, double> wave)
    {
        var points = Enumerable.Range(0, 100_000).Select(i => wave(2 * Math.PI * i / 100_000)).ToArray();
        return points.Max() - points.Min();
    }
}
