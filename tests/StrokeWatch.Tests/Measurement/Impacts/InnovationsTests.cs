using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>What linear prediction leaves of a ringing tray, on signals made for it: a mode of 380 Hz and 2 % of critical damping, sampled at 1 kHz, 60 Hz drive.</summary>
public sealed class InnovationsTests
{
    private const double Drive = 60.0 / 1000;
    private const int Samples = 500;
    private const int Sectors = BlowFeatures.Sectors;

    /// <summary>Blows a little harder and softer at 0.3 of each cycle: the ringing hides when they come, prediction shows it.</summary>
    [Fact]
    public void Blows_that_vary_are_told_by_the_moment_at_which_they_come()
    {
        var random = new Random(3);
        var counts = new int[Sectors];
        for (var window = 0; window < 100; window++)
        {
            var numbers = Worked(Rung(random, (cycle, place) => place == 0 ? Signal.Gauss(random) : 0, at: 0.3));
            counts[Array.IndexOf(numbers[..Sectors], numbers[..Sectors].Max())]++;
            Assert.True(Told(numbers, 0) > 4, $"window {window}: {Told(numbers, 0)} standard deviations");

            // The power's first order points to 0.3 of a cycle: 108°, give or take the sample that a blow falls into.
            Assert.InRange(Math.Atan2(numbers[Sectors + 1], numbers[Sectors]) * 180 / Math.PI, 75, 155);
        }

        // A blow of one instant lies in one sample of the 16.7 of a cycle, its begin or its end.
        Assert.True(counts[4] + counts[5] + counts[6] > 90, string.Join(' ', counts));
    }

    /// <summary>Two numbers of the same variance: their root mean square exceeds 3 with probability exp(−9/2), 1.1 %.</summary>
    [Theory]
    [InlineData(false, 0.025)]
    [InlineData(true, 0.06)]
    public void Noise_and_pieces_at_any_time_are_told_about_as_often_as_chance_has_it(bool pieces, double most)
    {
        const int Windows = 2000;
        var random = new Random(4);
        var beyond = new int[5];
        for (var window = 0; window < Windows; window++)
        {
            var numbers = Worked(pieces
                ? Rung(random, (_, _) => random.NextDouble() < 0.03 ? 3 * random.NextDouble() : 0, at: 0)
                : [.. Enumerable.Range(0, Samples).Select(_ => Signal.Gauss(random))]);
            for (var q = 0; q < beyond.Length; q++)
            {
                beyond[q] += Told(numbers, q) > 3 ? 1 : 0;
            }
        }

        // The fourth is the larger of two; some fifteen pieces in a window are too few for their sum to be normal.
        Assert.All(new[] { 0, 1, 2, 4 }, q => Assert.InRange(beyond[q], 5, most * Windows));
        Assert.InRange(beyond[3], 5, 2 * most * Windows);
    }

    [Theory]
    [InlineData(2, 3)]
    [InlineData(3, 4)]
    public void Blows_in_every_second_or_third_cycle_are_told_in_the_half_and_third_order(int period, int which)
    {
        var random = new Random(5);
        for (var window = 0; window < 50; window++)
        {
            var numbers = Worked(Rung(random, (cycle, place) => place == 0 && cycle % period == 1 ? 2 * Signal.Gauss(random) : 0, at: 0.3));
            Assert.True(Told(numbers, which) > 3 && Told(numbers, which) > Told(numbers, which == 3 ? 4 : 3), $"{Told(numbers, 3)}, {Told(numbers, 4)}");
        }
    }

    [Fact]
    public void About_the_other_end_the_same_blows_come_half_a_cycle_later()
    {
        var random = new Random(6);
        var innovations = new Innovations();
        innovations.Work(Rung(random, (_, place) => place == 0 ? Signal.Gauss(random) : 0, at: 0.3), Drive, 0, 1);
        double[] one = new double[Innovations.Count], other = new double[Innovations.Count];
        Assert.Equal(Innovations.Count, innovations.Fill(0, one, 0));
        Assert.Equal(Innovations.Count, innovations.Fill(Sectors / 2, other, 0));
        for (var s = 0; s < Sectors; s++)
        {
            Assert.Equal(one[s], other[(s + (Sectors / 2)) % Sectors]);
        }

        Assert.Equal((-one[16], -one[17], one[18], one[19]), (other[16], other[17], other[18], other[19]));
        Assert.Equal(one[20..], other[20..]);
    }

    [Fact]
    public void A_rest_of_nothing_or_too_few_samples_tells_nothing()
    {
        foreach (var rest in new[] { new double[Samples], [], [1, 2, 3], [.. Enumerable.Range(0, 30).Select(n => Math.Sin(n))] })
        {
            Assert.All(Worked(rest), number => Assert.True(double.IsFinite(number)));
        }
    }

    /// <summary>Gives the modulation with order 1, 2, 3, a half and a third, in standard deviations.</summary>
    private static double Told(double[] numbers, int which) => Math.Pow(10, numbers[Sectors + 4 + which]) - 0.05;

    private static double[] Worked(double[] rest)
    {
        var (innovations, numbers) = (new Innovations(), new double[Innovations.Count]);
        innovations.Work(rest, Drive, 0, 1);
        innovations.Fill(0, numbers, 0);
        return numbers;
    }

    /// <summary>Rings a mode by blows: of each cycle, and place in it in samples from a moment on, the size.</summary>
    private static double[] Rung(Random random, Func<int, int, double> blow, double at)
    {
        var values = new double[Samples];
        var (radius, turn) = (Math.Exp(-0.02 * 2 * Math.PI * 0.38), 2 * Math.PI * 0.38);
        double before = 0, twoBefore = 0;
        for (var n = -200; n < Samples; n++)
        {
            // The first sample after the moment is place 0.
            var since = (n * Drive) - at;
            var cycle = (int)Math.Floor(since);
            var value = blow(cycle + 100, (int)Math.Floor((since - cycle) / Drive)) + (2 * radius * Math.Cos(turn) * before) - (radius * radius * twoBefore);
            (twoBefore, before) = (before, value);
            if (n >= 0)
            {
                values[n] = value + (0.1 * Signal.Gauss(random));
            }
        }

        return values;
    }
}
