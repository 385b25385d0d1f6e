using System.Numerics;
using StrokeWatch.Benchmarks.Strikes;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>The spectra of pulse trains: shared check-values 9.2.</summary>
public sealed class PulseTrainTests
{
    private const int Length = 65536;

    [Theory]
    [InlineData(0.05, 0.03183098862, 0.06351332592, 0.06306889405, 0.06233322754, 0.05)]
    [InlineData(0.1, 0.06366197724, 0.1261377881, 0.1226276702, 0.1169361605, 0.04244131816)]
    [InlineData(0.5, 0.31830988618, 0.5, 0.2122065908, 0, 0.0064305027)]
    public void A_train_of_half_sines_has_its_lines_where_the_formula_says(double share, double mean, double first, double second, double third, double tenth)
    {
        var lines = Lines(phase => phase < share ? Math.Sin(Math.PI * phase / share) : 0);

        // The tenth for 0.5 is the rectified sine's 2/(π(n²−1)).
        double[] expected = [mean, first, second, third, tenth];
        int[] orders = [0, 1, 2, 3, 10];
        for (var i = 0; i < orders.Length; i++)
        {
            Assert.Equal(expected[i], lines[orders[i]] / (i == 0 ? 2 : 1), 7);
        }
    }

    [Fact]
    public void Impulses_have_equal_lines_and_uneven_ones_a_half_order_of_their_unevenness()
    {
        var even = Lines(phase => phase == 0 ? Length : 0);
        Assert.All(even[1..100], line => Assert.Equal(2, line, 9));

        // Over two periods: the odd lines are the half orders.
        var uneven = Lines(phase => phase == 0 ? 1.1 : phase == 0.5 ? 0.9 : 0);
        Assert.Equal(0.1, uneven[1] / uneven[2], 9);
        Assert.Equal(0.1, uneven[31] / uneven[32], 9);
    }

    [Fact]
    public void Decaying_bursts_have_the_crest_and_kurtosis_of_the_closed_form()
    {
        // rms² = A²τ/4T, kurtosis 1.5 T/τ (energy: Pachaud, Salvetat, Fray, MSSP 11(6), 1997). At 8 kHz the carrier is not infinitely fast: 24.97.
        const double Period = 1.0 / 60, Decay = 1e-3;
        double square = 0, fourth = 0, peak = 0;
        for (var i = 0; i < Length; i++)
        {
            var t = i * Period / Length;
            var value = Math.Exp(-t / Decay) * Math.Sin(2 * Math.PI * 8000 * t);
            (square, fourth, peak) = (square + (value * value / Length), fourth + (Math.Pow(value, 4) / Length), Math.Max(peak, Math.Abs(value)));
        }

        Assert.InRange(fourth / (square * square), 24.9, 25.05);
        Assert.InRange(peak / Math.Sqrt(square), 7.85, 8.17);
    }

    /// <summary>Gives the amplitudes of the lines of a wave given over one period; twice the mean at 0.</summary>
    private static double[] Lines(Func<double, double> wave)
    {
        Complex[] values = [.. Enumerable.Range(0, Length).Select(i => new Complex(wave((double)i / Length), 0))];
        new Fft(Length).Transform(values);
        return [.. values.Take(Length / 2).Select(value => 2 * Complex.Abs(value) / Length)];
    }
}
