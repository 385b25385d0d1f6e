using StrokeWatch.Benchmarks.Strikes;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>The study's forces must put nothing between the orders: a kink sampled as it is would.</summary>
public sealed class StudyWaveTests
{
    [Fact]
    public void A_kinked_wave_sampled_after_it_was_limited_has_nothing_on_half_orders()
    {
        // 8,000 samples a second of a wave of 49.844 Hz: orders above half that rate fold back near halves.
        const double Hertz = 8000 / 160.5;
        double[] Kinked() => [.. Enumerable.Range(0, StudyWave.Points).Select(i => Math.Max(0, Math.Sin(2 * Math.PI * i / StudyWave.Points)))];
        var (kinked, limited) = (Kinked(), Kinked());
        StudyWave.Limit(limited, Hertz, 8000);

        Assert.True(Halves(kinked) > 5e-5, $"{Halves(kinked)}");
        Assert.True(Halves(limited) < 2e-6, $"{Halves(limited)}");
        Assert.Equal(1, StudyWave.At(limited, 0.25), 3);
        Assert.Equal(StudyWave.At(limited, 0.1), StudyWave.At(limited, -3.9), 9);

        // The strongest half order to 4 kHz, over 321 samples: two periods.
        static double Halves(double[] wave) => Enumerable.Range(0, 79).Max(k =>
        {
            double re = 0, im = 0;
            for (var i = 0; i < 321; i++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * ((2 * k) + 1) * i / 321);
                var value = StudyWave.At(wave, i / 160.5);
                (re, im) = (re + (value * cos), im + (value * sin));
            }

            return Math.Sqrt((re * re) + (im * im)) * 2 / 321;
        });
    }
}
