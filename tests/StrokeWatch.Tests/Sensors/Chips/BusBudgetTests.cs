using StrokeWatch.Sensors.Chips;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>The budget, held to a table worked out by hand: 9 bits a byte on a 400 kHz I2C bus, payload, share and the time the chip's store lasts.</summary>
public sealed class BusBudgetTests
{
    private const double I2c = 400_000;

    [Theory]
    [InlineData("adxl345", 3200, 269_000, 67, 10, BusVerdict.Refused)]
    [InlineData("adxl345", 800, 67_000, 17, 40, BusVerdict.Fits)]
    [InlineData("adxl357", 4000, 324_000, 81, 8, BusVerdict.Refused)]
    [InlineData("adxl357", 2000, 162_000, 41, 16, BusVerdict.Tight)]
    [InlineData("adxl357", 1000, 81_000, 20, 32, BusVerdict.Fits)]
    [InlineData("kx134", 3200, 173_000, 43, 27, BusVerdict.Fits)]
    public void The_budget_is_that_of_the_table(string kind, double rate, double bits, double percent, double fifoMs, BusVerdict verdict)
    {
        var load = BusBudget.Of(ChipModels.Find(kind)!, ChipBus.I2c, I2c, rate);
        Assert.Equal(bits, load.PayloadBits, 500.0);
        Assert.Equal(percent, 100 * load.PayloadShare, 0.6);
        Assert.Equal(fifoMs, 1000 * load.FifoSeconds, 0.5);
        Assert.Equal(verdict, load.Verdict);
        Assert.True(load.BusyShare > load.PayloadShare);
    }

    [Fact]
    public void A_store_of_tagged_words_of_seven_bytes_is_reckoned_alike()
    {
        // 9 kB of 7-byte words at 3333 Hz: 210 kbit/s, 53 %, 385 ms; 512 words at 26.7 kHz on SPI: 1.5 Mbit/s, 19 ms.
        var words = ChipModels.Kx134 with { SampleBytes = 7, FifoSamples = 9000 / 7 };
        var load = BusBudget.Of(words, ChipBus.I2c, I2c, 3333);
        Assert.Equal(210_000, load.PayloadBits, 100.0);
        Assert.Equal(53, 100 * load.PayloadShare, 0.6);
        Assert.Equal(BusVerdict.Fits, load.Verdict);
        var fast = BusBudget.Of(words with { FifoSamples = 512 }, ChipBus.Spi, 10e6, 26_667);
        Assert.Equal(1.5e6, fast.PayloadBits, 1e4);
        Assert.Equal(19, 1000 * fast.FifoSeconds, 0.3);
    }

    [Theory]
    [InlineData("adxl357", 4000, 4_000_000, BusVerdict.Tight)]
    [InlineData("kx134", 6400, 4_000_000, BusVerdict.Fits)]
    [InlineData("kx134", 12800, 10_000_000, BusVerdict.Tight)]
    [InlineData("kx134", 25600, 10_000_000, BusVerdict.Refused)]
    [InlineData("adxl345", 3200, 2_000_000, BusVerdict.Tight)]
    public void On_SPI_the_store_is_what_limits(string kind, double rate, double clock, BusVerdict verdict) =>
        Assert.Equal(verdict, BusBudget.Of(ChipModels.Find(kind)!, ChipBus.Spi, clock, rate).Verdict);

    [Fact]
    public void What_does_not_fit_is_refused_with_what_would()
    {
        var words = BusBudget.Trouble(Settings("adxl357", ChipBus.I2c, 400_000, 4000));
        Assert.Equal(
            "ADXL357 at 4000 Hz on I2C at 400 kHz: samples alone take 81 % of the bus, the chip's store lasts 8.0 ms and a drain may be 1.3 ms late; it does not fit. "
            + "What would fit: rate_hz = 2000 on this bus, or 4000 Hz on SPI at 4 MHz",
            words);
        Assert.Contains("I2C at 400 kHz", BusBudget.Trouble(Settings("kx134", ChipBus.I2c, 100_000, 3200)), StringComparison.Ordinal);
        Assert.Null(BusBudget.Trouble(Settings("adxl357", ChipBus.Spi, 4_000_000, 4000)));
    }

    [Fact]
    public void Whatever_is_offered_instead_fits()
    {
        foreach (var model in ChipModels.All)
        {
            foreach (var (bus, speed) in new[] { (ChipBus.I2c, 100_000), (ChipBus.I2c, 400_000), (ChipBus.Spi, model.UsualSpiHz) })
            {
                var highest = BusBudget.HighestRate(model, bus, speed)!.Value;
                Assert.NotEqual(BusVerdict.Refused, BusBudget.Of(model, bus, speed, highest).Verdict);
                Assert.All(model.Rates.Where(rate => rate.Hz > highest), rate => Assert.NotNull(BusBudget.Trouble(Settings(model.Kind, bus, speed, rate.Hz))));
            }
        }
    }

    private static ChipSettings Settings(string kind, ChipBus bus, int speed, double rate)
    {
        var model = ChipModels.Find(kind)!;
        return new() { Model = model, Bus = bus, Device = "/dev/x", SpeedHz = speed, Range = model.Ranges[^1], Rate = model.RateOf(rate)!.Value };
    }
}
