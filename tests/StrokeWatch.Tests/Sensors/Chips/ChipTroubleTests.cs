using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>All that can go wrong with a chip on a bus is told as a lost sensor, with what to do, and never as a reading.</summary>
public sealed class ChipTroubleTests
{
    public static TheoryData<string, ChipBus> Each()
    {
        var data = new TheoryData<string, ChipBus>();
        foreach (var model in ChipModels.All)
        {
            data.Add(model.Kind, ChipBus.Spi);
            data.Add(model.Kind, ChipBus.I2c);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void A_chip_that_stops_acknowledging_is_lost_and_comes_back_with_a_gap(string kind, ChipBus bus)
    {
        using var bench = Bench(kind, bus);
        Assert.True(bench.Samples());
        bench.Chip.Trouble = BusTrouble.NoAcknowledgement;
        Assert.True(bench.Lost());
        Assert.Contains("does not acknowledge", bench.Events[^1].Words, StringComparison.Ordinal);
        Assert.Equal(SensorEventKind.Lost, bench.Events[^1].Kind);
        var before = bench.Chip.Transfers;
        for (var i = 0; i < 100; i++)
        {
            Assert.Equal(SourceState.Lost, bench.Source.Read(bench.Block));
        }

        // 100 reads of 0.2 s each: tried again after 0.5, 1, 2 and then every 5 s.
        Assert.InRange(bench.Chip.Transfers - before, 3, 9);
        bench.Chip.Trouble = BusTrouble.None;
        Assert.True(bench.Samples());
        Assert.True(bench.Block.GapBefore);
        Assert.Equal((1L, 1L), (bench.Source.Counters.Gaps, bench.Source.Counters.Reopenings));
        Assert.InRange(bench.Block.StartSeconds, 15, 40);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void A_stuck_bus_is_told_as_one(string kind, ChipBus bus)
    {
        using var bench = Bench(kind, bus);
        Assert.True(bench.Samples());
        bench.Chip.Trouble = BusTrouble.Stuck;
        Assert.True(bench.Lost());
        Assert.Contains("the bus is stuck", bench.Events[^1].Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("adxl357", BusTrouble.AllOnes)]
    [InlineData("adxl357", BusTrouble.AllZeros)]
    [InlineData("kx134", BusTrouble.AllOnes)]
    [InlineData("kx134", BusTrouble.AllZeros)]
    [InlineData("adxl345", BusTrouble.AllOnes)]
    [InlineData("adxl345", BusTrouble.AllZeros)]
    public void A_loose_wire_on_SPI_gives_no_sample_and_is_told_within_half_a_second(string kind, BusTrouble trouble)
    {
        using var bench = Bench(kind, ChipBus.Spi);
        Assert.True(bench.Samples());
        bench.Chip.Trouble = trouble;
        var (samples, since) = (bench.Source.Counters.Samples, bench.Time.GetTimestamp());
        Assert.True(bench.Lost());
        Assert.InRange(bench.Time.GetElapsedTime(since).TotalSeconds, 0, 0.6);
        Assert.InRange(bench.Source.Counters.Samples - samples, 0, 512);
        Assert.Contains("nothing answers", bench.Events[^1].Words, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void A_chip_whose_supply_dipped_is_found_out_and_set_up_anew(string kind, ChipBus bus)
    {
        using var bench = Bench(kind, bus);
        Assert.True(bench.Samples());
        bench.Chip.PowerOn();
        var since = bench.Time.GetTimestamp();
        Assert.True(bench.Lost());
        Assert.InRange(bench.Time.GetElapsedTime(since).TotalSeconds, 0, 1.3);
        Assert.Contains("set up anew", bench.Events[^1].Words, StringComparison.Ordinal);
        Assert.True(bench.Samples());
        Assert.True(bench.Block.GapBefore);
        Assert.Equal(bench.Settings.Range.FullScaleG, bench.Block.FullScale!.Value / 9.80665, 1e-4);
    }

    [Fact]
    public void Settings_that_change_by_themselves_are_found_out_within_a_second()
    {
        using var bench = Bench("adxl357", ChipBus.Spi);
        Assert.True(bench.Samples());

        // One bit of RANGE: 40 g becomes 20 g, and every stroke would read half.
        bench.Chip.Registers[0x2C] = 0x82;
        var since = bench.Time.GetTimestamp();
        Assert.True(bench.Lost());
        Assert.InRange(bench.Time.GetElapsedTime(since).TotalSeconds, 0, 1.3);
        Assert.Contains("RANGE (0x2C) reads 0x82, set to 0x83", bench.Events[^1].Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("adxl357", "kx134")]
    [InlineData("kx134", "adxl345")]
    [InlineData("adxl345", "adxl357")]
    public void Another_chip_in_its_place_gives_no_reading(string kind, string other)
    {
        using var bench = Bench(kind, ChipBus.I2c);
        Assert.True(bench.Samples());
        bench.Chip = bench.Make(other);
        var samples = bench.Source.Counters.Samples;
        Assert.True(bench.Lost());
        for (var i = 0; i < 60; i++)
        {
            Assert.Equal(SourceState.Lost, bench.Source.Read(bench.Block));
        }

        Assert.Equal(samples, bench.Source.Counters.Samples);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void A_chip_that_answers_but_takes_no_samples_is_lost(string kind, ChipBus bus)
    {
        using var bench = Bench(kind, bus);
        Assert.True(bench.Samples());
        bench.Chip.Frozen = true;
        Assert.True(bench.Lost());
        Assert.Contains("takes no samples", bench.Events[^1].Words, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Each))]
    public void A_drain_that_comes_too_late_is_a_gap_and_not_a_jump(string kind, ChipBus bus)
    {
        using var bench = Bench(kind, bus);
        Assert.True(bench.Samples());
        bench.Time.Advance(TimeSpan.FromSeconds(2 * bench.Settings.Model.FifoSamples / bench.Settings.Rate.Hz));
        var gaps = 0;
        for (var i = 0; i < 20; i++)
        {
            Assert.True(bench.Samples());
            gaps += bench.Block.GapBefore ? 1 : 0;
        }

        Assert.Equal(1, gaps);
        Assert.Equal(1, bench.Source.Counters.Gaps);
    }

    [Fact]
    public void A_torn_entry_is_a_gap_and_the_axes_do_not_change_places()
    {
        using var bench = Bench("adxl357", ChipBus.Spi);
        bench.Chip.Signal = _ => (1, 2, 3);
        Assert.True(bench.Samples());
        bench.Time.Advance(TimeSpan.FromMilliseconds(3));
        bench.Chip.Read(0x04, new byte[2]);
        ((EmulatedAdxl357)bench.Chip).LoseEntry();
        for (var i = 0; i < 10; i++)
        {
            Assert.True(bench.Samples());
            for (var sample = 0; sample < bench.Block.Count; sample++)
            {
                Assert.Equal([1, 2, 3], new[] { 0, 1, 2 }.Select(axis => (int)Math.Round(bench.Block[axis][sample] / 9.80665)));
            }
        }

        Assert.Equal(1, bench.Source.Counters.Gaps);
    }

    [Fact]
    public void A_reader_that_sleeps_loses_the_oldest_and_knows_how_many()
    {
        using var bench = Bench("adxl357", ChipBus.Spi);
        using var chip = (ChipSource)bench.Opener.Open().Source!;
        for (var i = 0; i < 2000; i++)
        {
            bench.Wait(TimeSpan.FromMilliseconds(2));
            chip.Step();
        }

        Assert.InRange(chip.Dropped, 1400, 1600);
        Assert.Null(chip.Fate);
        Assert.Equal(31, chip.Temperature!.Value, 0.1);
    }

    private static ChipBench Bench(string kind, ChipBus bus) => new(kind, bus, kind == "adxl357" ? bus == ChipBus.Spi ? 4000 : 1000 : 800);
}
