using System.Collections.Concurrent;
using StrokeWatch.Sensors.Converters;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Converters;

/// <summary>Converters that take the supply's voltage: wires, arithmetic, budget, and a thread that reads an emulated one.</summary>
[Collection(Undisturbed.Name)]
public sealed class ConverterTests
{
    [Theory]
    [InlineData("mcp3208", 12)]
    [InlineData("mcp3008", 10)]
    public void Every_input_of_an_mcp_reads_its_own_voltage_and_an_end_of_the_range_is_none(string kind, int bits)
    {
        for (var channel = 0; channel < 8; channel++)
        {
            using var driver = new Mcp3208Driver(new EmulatedMcp(bits, input => (input + 0.5) / 8), Settings(kind) with { Channel = channel });
            Assert.Null(driver.Start());
            Assert.Equal(3.3 * (channel + 0.5) / 8, driver.Read()!.Value, 3.3 / (1 << bits));
        }

        Assert.All((double[])[-1, 0, 0.99999, 2], share =>
        {
            using var driver = new Mcp3208Driver(new EmulatedMcp(bits, _ => share), Settings(kind));
            Assert.Null(driver.Read());
        });
        using var dead = new Mcp3208Driver(new EmulatedMcp(bits, _ => 0.5) { Dead = true }, Settings(kind));
        Assert.Contains("does not answer", dead.Start(), StringComparison.Ordinal);
        Assert.Throws<IOException>(() => dead.Read());
    }

    [Fact]
    public void Every_range_and_input_of_an_ads_reads_its_own_voltage_and_settings_that_do_not_stay_are_told()
    {
        foreach (var range in ConverterRanges.Ads1115)
        {
            for (var channel = 0; channel < 4; channel++)
            {
                using var driver = new Ads1115Driver(new EmulatedAds(input => range * (input + 1) / 5), Settings("ads1115") with { Channel = channel, RangeVolts = range });
                Assert.Null(driver.Start());
                Assert.Equal(range * (channel + 1) / 5, driver.Read()!.Value, range / 32768);
            }
        }

        // By hand from the table of the configuration register: input 2 (6), 4.096 V (1), by itself (0), 860 a second (7), comparator off (3).
        var kept = new EmulatedAds(_ => -1);
        using var second = new Ads1115Driver(kept, Settings("ads1115") with { Channel = 2, RangeVolts = 4.096 });
        Assert.Null(second.Start());
        Assert.Equal((0x62E3, (0x8000, 0x7FFF)), (kept.Configuration & 0x7FFF, kept.Thresholds));
        Assert.Equal(-1.0, second.Read()!.Value, 4.096 / 32768);

        using var railed = new Ads1115Driver(new EmulatedAds(_ => 9), Settings("ads1115"));
        Assert.Null(railed.Start());
        Assert.Null(railed.Read());
        using var other = new Ads1115Driver(new EmulatedAds(_ => 1) { Forgets = true }, Settings("ads1115"));
        Assert.Contains("does not keep its settings", other.Start(), StringComparison.Ordinal);
        using var stuck = new Ads1115Driver(new EmulatedAds(_ => 1) { Busy = true }, Settings("ads1115"));
        Assert.Contains("never ends a conversion", stuck.Start(), StringComparison.Ordinal);
        using var gone = new Ads1115Driver(new EmulatedAds(_ => 1) { Gone = true }, Settings("ads1115"));
        Assert.Throws<IOException>(() => gone.Start());
    }

    [Fact]
    public void A_read_of_a_converter_allocates_nothing()
    {
        using var mcp = new Mcp3208Driver(new QuietSpi(), Settings("mcp3208"));
        using var ads = new Ads1115Driver(new QuietI2c(), Settings("ads1115") with { RangeVolts = 4.096 });
        Assert.Null(mcp.Start() ?? ads.Start());
        double? sum = 0;
        for (var run = 0; run < 2; run++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            for (var read = 0; read < 2000; read++)
            {
                sum += mcp.Read() + ads.Read();
            }

            Assert.True(run == 0 || GC.GetAllocatedBytesForCurrentThread() - before < 100, "a read allocates");
        }

        // Codes by hand: 0x0555 of 4096 at 3.3 V, 0x4000 of 32768 at 4.096 V.
        Assert.Equal(4000 * (3.3 * 1365.5 / 4096 + 2.048), sum!.Value, 1e-6);
    }

    /// <summary>A sine of amplitude A on a constant part has A/√2; one of which half is cut off at 90° half of the power; evenly or not.</summary>
    [Theory]
    [InlineData(50, 0)]
    [InlineData(60, 0)]
    [InlineData(50, 0.45)]
    [InlineData(60, 0.45)]
    public void True_rms_comes_out_of_samples_that_come_late_by_chance(double mains, double late)
    {
        var chance = new Random(5);
        var (whole, cut) = (new RmsTally(mains), new RmsTally(mains));
        List<double> wholes = [], cuts = [];
        for (var n = 0; n < 4000; n++)
        {
            var at = (n + late * chance.NextDouble()) / 850;
            var sine = 1.3 * Math.Sin(2 * Math.PI * mains * 1.0004 * at);
            if (whole.Take(at, 1.65 + sine, out var rms))
            {
                wholes.Add(rms!.Value);
            }

            if (cut.Take(at, 1.65 + (Math.Abs(at * mains * 1.0004 % 0.5) < 0.25 ? 0 : sine), out rms))
            {
                cuts.Add(rms!.Value);
            }
        }

        Assert.Equal(4, wholes.Count);
        Assert.All(wholes, rms => Assert.InRange(rms / (1.3 / Math.Sqrt(2)), 0.99, 1.01));
        Assert.All(cuts, rms => Assert.InRange(rms / (1.3 / 2), 0.97, 1.03));
    }

    [Fact]
    public void A_small_hole_costs_little_a_great_one_and_a_rail_the_second()
    {
        var tally = new RmsTally(50);
        List<double?> read = [];
        for (var n = 0; n < 6000; n++)
        {
            if (n is > 500 and < 520 or > 4100 and < 4400)
            {
                continue;
            }

            if (tally.Take(n / 1000.0, n == 3500 ? null : Math.Sin(2 * Math.PI * 50 * n / 1000.0), out var rms))
            {
                read.Add(rms);
            }
        }

        Assert.Equal(1, tally.Holes);
        Assert.Equal([true, true, true, false], read.Select(rms => rms is not null));
        Assert.All(read.OfType<double>(), rms => Assert.Equal(Math.Sqrt(0.5), rms, 0.015));
    }

    [Fact]
    public void The_budget_refuses_what_converter_or_bus_do_not_take_and_too_few_reads_a_cycle()
    {
        Assert.Null(ConverterBudget.Trouble(Settings("mcp3208") with { RateHz = 800 }));
        Assert.Null(ConverterBudget.Trouble(Settings("ads1115") with { RateHz = 860, SpeedHz = 100_000 }));
        Assert.Contains("more than the ADS1115", ConverterBudget.Trouble(Settings("ads1115") with { RateHz = 861 }), StringComparison.Ordinal);
        Assert.Contains("raise `speed_hz`", ConverterBudget.Trouble(Settings("ads1115") with { RateHz = 800, SpeedHz = 20_000 }), StringComparison.Ordinal);
        Assert.Contains("fewer than 8 a cycle of 50 Hz; 400 or more", ConverterBudget.Trouble(Settings("mcp3208") with { RateHz = 399 }), StringComparison.Ordinal);

        // By hand: 24 bits at 1 MHz and 20 µs a call are 44 µs; 60 % of a second holds 13 636 of them.
        Assert.Equal(13_636, ConverterBudget.MostHz(Settings("mcp3208")), 1.0);
    }

    [Fact]
    public async Task A_converter_is_read_lost_found_again_and_its_range_watched()
    {
        var (amplitude, began) = (1.2, TimeProvider.System.GetTimestamp());
        var chip = new EmulatedAds(_ => 1.65 + Volatile.Read(ref amplitude) * Math.Sin(2 * Math.PI * 50 * TimeProvider.System.GetElapsedTime(began).TotalSeconds));
        var said = new ConcurrentQueue<string>();
        var settings = Settings("ads1115") with { RangeVolts = 4.096, RateHz = 800 };
        using var meter = new SupplyMeter(settings, one => new Ads1115Driver(chip, one), TimeProvider.System, said.Enqueue);
        await Until(() => meter.Volts(TimeSpan.FromSeconds(3)) is not null);
        Assert.Equal(1.2 / Math.Sqrt(2), meter.Volts(TimeSpan.FromSeconds(3))!.Value, 0.02);
        Assert.Null(meter.Trouble);
        chip.Gone = true;
        await Until(() => meter.Trouble is not null);
        Assert.Contains("does not acknowledge", meter.Trouble, StringComparison.Ordinal);
        await Until(() => meter.Volts(TimeSpan.FromSeconds(1)) is null);
        chip.Gone = false;
        await Until(() => meter.Trouble is null);

        // A dip of the converter's supply: by its own settings it converts once and then says the same for ever, which would be 0 V.
        chip.Dip();
        await Until(() => meter.Trouble is not null);
        Assert.Contains("has lost its settings", meter.Trouble, StringComparison.Ordinal);
        await Until(() => meter.Trouble is null);
        Assert.Equal(1.2 / Math.Sqrt(2), meter.Volts(TimeSpan.FromSeconds(3))!.Value, 0.02);
        Volatile.Write(ref amplitude, 3);
        await Until(() => meter.Trouble is not null);
        Assert.Contains("reaches an end of its range", meter.Trouble, StringComparison.Ordinal);
        Assert.Equal(6, said.Count);
    }

    private static ConverterSettings Settings(string kind) => new()
    {
        Model = ConverterModel.Find(kind)!,
        Device = "/dev/none",
        SpeedHz = ConverterModel.Find(kind)!.MostBusHz,
        RangeVolts = kind == "ads1115" ? 4.096 : 3.3,
        RateHz = 800,
        MainsHz = 50,
    };

    private static async Task Until(Func<bool> asked)
    {
        for (var i = 0; i < 1200 && !asked(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(asked());
    }
}
