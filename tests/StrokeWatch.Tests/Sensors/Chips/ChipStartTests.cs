using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

public sealed class ChipStartTests
{
    [Theory]
    [InlineData("adxl357", ChipBus.Spi, 4000)]
    [InlineData("adxl357", ChipBus.I2c, 1000)]
    [InlineData("kx134", ChipBus.Spi, 6400)]
    [InlineData("kx134", ChipBus.I2c, 1600)]
    [InlineData("adxl345", ChipBus.Spi, 3200)]
    [InlineData("adxl345", ChipBus.I2c, 800)]
    public void The_self_test_runs_at_the_start_and_passes(string kind, ChipBus bus, double rate)
    {
        using var bench = new ChipBench(kind, bus, rate);
        using var chip = bench.Opener.Open().Source;
        Assert.NotNull(chip);
        Assert.Equal(SelfTestVerdict.Passed, bench.Opener.Shown!.Verdict);
        Assert.Equal(1, bench.Opener.Shown.GravityG, 0.01);
        Assert.Equal(kind == "adxl345" ? [ChipModels.Adxl345.Limits] : [], bench.Told);
    }

    [Theory]
    [InlineData(50)]
    [InlineData(60)]
    [InlineData(100)]
    [InlineData(120)]
    public void A_running_feeder_does_not_spoil_the_self_test(double hz)
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000);
        bench.Chip.Signal = n => (9 * Math.Sin(2 * Math.PI * hz * n / 4000), 0, 1 + (4 * Math.Sin(2 * Math.PI * hz * n / 4000)));
        using var chip = bench.Opener.Open().Source;
        Assert.NotNull(chip);
        Assert.Equal(SelfTestVerdict.Passed, bench.Opener.Shown!.Verdict);
        Assert.Equal(0.3, bench.Opener.Shown.DeltaG[0], 0.02);
    }

    [Fact]
    public void A_tray_that_moves_too_much_leaves_the_self_test_unjudged()
    {
        using var bench = new ChipBench("adxl357", ChipBus.I2c, 1000);
        bench.Chip.Signal = n => (9 * Math.Sin(2 * Math.PI * 47 * n / 1000), 0, 1);
        using var chip = bench.Opener.Open().Source;
        Assert.NotNull(chip);
        Assert.Equal(SelfTestVerdict.NotJudged, bench.Opener.Shown!.Verdict);
        Assert.Empty(bench.Told);
    }

    [Fact]
    public void A_dead_axis_is_never_measured_with()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000);
        ((EmulatedAdxl357)bench.Chip).Force = (0.3, 0, 1.5);
        var opened = bench.Opener.Open();
        Assert.Null(opened.Source);
        Assert.Contains("self-test moved x, y, z by 0.30, 0.00, 1.50 g: an axis does not move; the chip is broken: replace it", opened.Message, StringComparison.Ordinal);
        Assert.StartsWith("ADXL357 on /dev/spidev0.0: ", opened.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_self_test_outside_its_limits_and_gravity_of_another_scale_are_told_once()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000);
        ((EmulatedAdxl357)bench.Chip).Force = (0.3, 0.3, 3.5);
        bench.Chip.Signal = _ => (0, 0, 5);
        for (var i = 0; i < 2; i++)
        {
            using var chip = bench.Opener.Open().Source;
            Assert.NotNull(chip);
        }

        Assert.Equal(2, bench.Told.Count);
        Assert.Contains("outside its limits", bench.Told[0], StringComparison.Ordinal);
        Assert.Contains("gravity reads 5.00 g: a chip of another scale", bench.Told[1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_chip_of_another_kind_is_refused_with_what_it_said()
    {
        using var bench = new ChipBench("adxl357", ChipBus.I2c, 1000);
        bench.Chip.Registers[0x02] = 0xE9;
        var opened = bench.Opener.Open();
        Assert.Equal("ADXL357 on /dev/i2c-1 at 0x1D: another chip answers (it says AD1DE9, AD1DED was expected): correct `kind`, or the address or chip select", opened.Message);
    }

    [Fact]
    public void A_configuration_that_does_not_fit_its_bus_is_refused_before_the_bus_is_touched()
    {
        using var bench = new ChipBench("adxl357", ChipBus.I2c, 4000);
        Assert.Contains("it does not fit. What would fit: rate_hz = 2000 on this bus", bench.Opener.Open().Message, StringComparison.Ordinal);
        Assert.Equal(0, bench.Chip.Transfers);
    }

    [Theory]
    [InlineData("Error 121 performing I2C data transfer.", "the chip does not acknowledge")]
    [InlineData("Error 6 performing I2C data transfer.", "the chip does not acknowledge")]
    [InlineData("Error 110 performing I2C data transfer.", "the bus is stuck")]
    [InlineData("Error 5. Some other trouble", "the bus failed (Error 5. Some other trouble)")]
    [InlineData("Error of no number", "the bus failed (Error of no number)")]
    public void What_the_system_says_of_a_bus_is_told_in_words(string said, string words) => Assert.StartsWith(words, BusFault.Words(new IOException(said)), StringComparison.Ordinal);

    [Theory]
    [InlineData(ChipBus.Spi, "/dev/spidev1.2", 1, 2)]
    [InlineData(ChipBus.I2c, "/dev/i2c-11", 11, 11)]
    public void Device_files_are_taken_apart(ChipBus bus, string device, int number, int line) => Assert.Equal((number, line), ChipDevices.Parse(bus, device));

    [Theory]
    [InlineData(ChipBus.Spi, "/dev/i2c-1")]
    [InlineData(ChipBus.Spi, "/dev/spidev0")]
    [InlineData(ChipBus.Spi, "/dev/spidev0.x")]
    [InlineData(ChipBus.I2c, "/dev/i2c-")]
    [InlineData(ChipBus.I2c, "i2c-1")]
    public void What_is_no_device_file_of_the_bus_is_none(ChipBus bus, string device) => Assert.Null(ChipDevices.Parse(bus, device));

    [Fact]
    public void A_bus_that_is_not_there_is_told_with_how_to_switch_it_on()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000);
        var opened = ChipDevices.Opener(bench.Settings with { Device = "/dev/spidev99.0" }, bench.Time).Open();
        Assert.Equal(OpenFault.Missing, opened.Fault);
        Assert.Contains("/dev/spidev99.0: not there; switch the bus on (dtparam=spi=on in the board's config.txt)", opened.Message, StringComparison.Ordinal);
    }
}
