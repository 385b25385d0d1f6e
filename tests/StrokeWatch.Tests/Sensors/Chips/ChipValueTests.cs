using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>Numbers that go in at a chip's registers come out in m/s², at every range, on both buses.</summary>
public sealed class ChipValueTests
{
    public static TheoryData<string, ChipBus, double, double> Every()
    {
        var data = new TheoryData<string, ChipBus, double, double>();
        foreach (var model in ChipModels.All)
        {
            foreach (var range in model.Ranges)
            {
                data.Add(model.Kind, ChipBus.Spi, range.FullScaleG, model.Kind == "kx134" ? 3200 : model.Rates[^2].Hz);
                data.Add(model.Kind, ChipBus.I2c, range.FullScaleG, model.Kind == "kx134" ? 800 : model.Kind == "adxl345" ? 800 : 1000);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Every))]
    public void One_count_either_way_and_both_ends_are_read_right_at_every_range(string kind, ChipBus bus, double range, double rate)
    {
        using var bench = new ChipBench(kind, bus, rate, range);
        Assert.True(bench.Samples(), string.Join('\n', bench.Events.Select(e => e.Words)));
        var (low, high) = kind switch { "adxl357" => (-524288, 524287), "kx134" => (-32768, 32767), _ => ((int)(-256 * range), (int)(256 * range) - 1) };
        (int, int, int)[] edges = [(0, 1, -1), (low, high, 0), (high, low, 1), (-1, -2, 2)];
        Func<long, (int, int, int)> counts = n => edges[n % 4];
        switch (bench.Chip)
        {
            case EmulatedAdxl357 chip:
                chip.Counts = counts;
                break;
            case EmulatedKx134 chip:
                chip.Counts = counts;
                break;
            case EmulatedAdxl345 chip:
                chip.Counts = counts;
                break;
        }

        var scale = Gravity.Standard / bench.Settings.Range.CountsPerG;
        var seen = 0;
        for (var read = 0; read < 40 && seen < 50; read++)
        {
            Assert.True(bench.Samples());
            for (var i = 0; i < bench.Block.Count; i++)
            {
                var (x, y, z) = ((int)Math.Round(bench.Block[0][i] / scale), (int)Math.Round(bench.Block[1][i] / scale), (int)Math.Round(bench.Block[2][i] / scale));
                var at = Array.IndexOf(edges, (x, y, z));
                if (at < 0 && seen == 0)
                {
                    // What lay in the store before.
                    continue;
                }

                Assert.InRange(at, 0, 3);
                Assert.Equal(x * scale, bench.Block[0][i], Math.Abs(x * scale * 1e-7) + 1e-12);
                Assert.Equal(at is 1 or 2, bench.Block.Marks[i] == SampleMarks.Clipped);
                seen++;
            }
        }

        Assert.InRange(seen, 50, 1000);
        Assert.Equal(range * Gravity.Standard, bench.Block.FullScale!.Value, 1e-4);
        Assert.Equal(0, bench.Source.Counters.Gaps);
    }

    [Theory]
    [InlineData("adxl357", ChipBus.Spi, 4000)]
    [InlineData("adxl357", ChipBus.I2c, 1000)]
    [InlineData("kx134", ChipBus.Spi, 6400)]
    [InlineData("kx134", ChipBus.I2c, 3200)]
    [InlineData("adxl345", ChipBus.Spi, 3200)]
    [InlineData("adxl345", ChipBus.I2c, 800)]
    public void No_sample_is_lost_or_doubled_and_the_true_rate_is_found(string kind, ChipBus bus, double rate)
    {
        using var bench = new ChipBench(kind, bus, rate) { Chip = { RateError = 0.02 } };
        Assert.True(bench.Samples());
        double? last = null;
        var unit = Gravity.Standard / bench.Settings.Range.CountsPerG;
        bench.Chip.Signal = n => (n % 1000 / bench.Settings.Range.CountsPerG, 0, 1);
        for (var samples = 0L; samples < 12 * rate; samples += bench.Block.Count)
        {
            Assert.True(bench.Samples());
            foreach (var value in bench.Block[0])
            {
                var count = Math.Round(value / unit);
                Assert.True(last is null || count == (last + 1) % 1000 || samples < 1000, $"{last} before {count}");
                last = count;
            }
        }

        Assert.Equal(0, bench.Source.Counters.Gaps);
        Assert.Equal(1.02 * rate, bench.Source.MeasuredRateHz!.Value, 1e-3 * rate);
        Assert.Empty(bench.Source.Counters.Rejected);
        Assert.Contains(bench.Events, e => e.Words.Contains("its clock gives", StringComparison.Ordinal));
    }

    [Fact]
    public void A_read_longer_than_spidev_takes_is_cut_between_samples()
    {
        using var bench = new ChipBench("kx134", ChipBus.Spi, 3200);
        using var registers = new SpiRegisters(bench.Spi, SpiAddressing.ReadBitFirst);
        registers.Read(0x63, new byte[3 * 4096]);
        Assert.InRange(bench.Spi.Longest, 4000, 4096);
        Assert.Equal(1, bench.Spi.Longest % 18);
    }
}
