using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Half and third orders told line by line, and what cycles differ by in common, on cycles made for it.</summary>
public sealed class DifferingCyclesTests
{
    private const int Bins = 64;
    private const double SamplesPerCycle = 16.67;

    /// <summary>A tone of a half order turns about from cycle to cycle: its power is half its amplitude squared, times two in the sense of an order's power.</summary>
    [Theory]
    [InlineData(9, 2)]
    [InlineData(11, 2)]
    [InlineData(8, 3)]
    [InlineData(13, 3)]
    public void A_tone_on_a_half_or_third_order_is_told_with_its_power_whatever_the_number_of_cycles(int halvesOrThirds, int period)
    {
        foreach (var count in new[] { 18, 19, 23, 31 })
        {
            var random = new Random(5);
            var rows = Rows(count, (m, bin) => 2 * Math.Cos((2 * Math.PI * halvesOrThirds / period * (m + (bin / (double)Bins))) + 0.4) + (0.1 * Signal.Gauss(random)));
            var numbers = Worked(rows, count);

            Assert.Equal(Math.Log10(4), numbers[period == 2 ? 2 : 7], 0.1);
            Assert.True(numbers[period == 2 ? 0 : 5] > 1.5, $"{count} cycles: {numbers[0]}, {numbers[5]}");
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void A_blow_in_every_second_or_third_cycle_is_beyond_chance_and_the_other_rhythm_is_not(int period)
    {
        var random = new Random(6);
        var rows = Rows(30, (m, bin) => ((m % period == 0 ? 1 : 0) - (1.0 / period)) * Math.Exp(-0.5 * Math.Pow((bin - 20) / 2.0, 2)) + (0.1 * Signal.Gauss(random)));
        var numbers = Worked(rows, 30);

        Assert.True(numbers[period == 2 ? 3 : 8] > 8, $"halves {numbers[3]}, thirds {numbers[8]}");
        Assert.True(numbers[period == 2 ? 8 : 3] < 3, $"halves {numbers[3]}, thirds {numbers[8]}");
    }

    /// <summary>Fisher's F: minus log₁₀ of the probability exceeds 2 in about one noise window of a hundred.</summary>
    [Fact]
    public void Noise_alone_gives_the_evidence_that_chance_gives()
    {
        var random = new Random(7);
        int halves = 0, thirds = 0;
        for (var window = 0; window < 2000; window++)
        {
            var numbers = Worked(Rows(24, (_, _) => Signal.Gauss(random)), 24);
            (halves, thirds) = (halves + (numbers[3] > 2 ? 1 : 0), thirds + (numbers[8] > 2 ? 1 : 0));
        }

        Assert.InRange(halves, 0, 40);
        Assert.InRange(thirds, 0, 40);
    }

    [Fact]
    public void Blows_now_harder_now_softer_differ_by_one_waveform_and_knocks_at_any_time_by_many()
    {
        var random = new Random(8);
        int[] sector = [.. Enumerable.Range(0, Bins).Select(bin => bin / 4)];
        double[] Common(Func<int, (double Size, double At)> blow)
        {
            var blows = Enumerable.Range(0, 40).Select(blow).ToArray();
            var rows = Rows(40, (m, bin) => (blows[m].Size * Math.Exp(-0.5 * Math.Pow((bin - blows[m].At) / 1.5, 2))) + (0.02 * Signal.Gauss(random)));
            var norms = Enumerable.Range(0, 40).Select(m => Math.Sqrt(rows.AsSpan(m * Bins, Bins).ToArray().Sum(value => value * value))).ToArray();
            var (common, numbers) = (new CommonBlow(), new double[CommonBlow.Count]);
            common.Work(rows, norms, sector, 0.0004, 1);
            Assert.Equal(CommonBlow.Count, common.Fill(0, numbers, 0));
            return numbers;
        }

        var locked = Common(_ => (Signal.Gauss(random), 30));
        var loose = Common(_ => (1, 64 * random.NextDouble()));

        // The share of the first component, and of the second over the first, as common logarithms.
        Assert.True(locked[0] > -0.02 && locked[1] < -1.5, $"{locked[0]}, {locked[1]}");
        Assert.True(loose[0] < -0.5 && loose[1] > -0.4, $"{loose[0]}, {loose[1]}");

        // Bin 30 lies in the eighth sixteenth: the first component's energy points there.
        Assert.Equal(7.0 / 16 * 360, Math.Atan2(locked[9], locked[8]) * 180 / Math.PI, 12.0);
    }

    private static double[] Worked(double[] rows, int count)
    {
        // The mean is taken off, as the detector does.
        for (var bin = 0; bin < Bins; bin++)
        {
            var mean = Enumerable.Range(0, count).Average(m => rows[(m * Bins) + bin]);
            for (var m = 0; m < count; m++)
            {
                rows[(m * Bins) + bin] -= mean;
            }
        }

        var (orders, numbers) = (new SubOrders(), new double[SubOrders.Count]);
        orders.Work(rows, count, SamplesPerCycle, 1);
        orders.Fill(numbers);
        return numbers;
    }

    private static double[] Rows(int count, Func<int, int, double> value) =>
        [.. from m in Enumerable.Range(0, count) from bin in Enumerable.Range(0, Bins) select value(m, bin)];
}
