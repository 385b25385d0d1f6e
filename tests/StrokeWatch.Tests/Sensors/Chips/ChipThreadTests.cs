using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

[Collection(Undisturbed.Name)]
public sealed class ChipThreadTests
{
    [Theory]
    [InlineData("adxl357", ChipBus.Spi, 4000)]
    [InlineData("kx134", ChipBus.I2c, 3200)]
    [InlineData("adxl345", ChipBus.I2c, 800)]
    public void Draining_and_handing_over_allocates_nothing(string kind, ChipBus bus, double rate)
    {
        using var bench = new ChipBench(kind, bus, rate);
        using var chip = (ChipSource)bench.Opener.Open().Source!;
        var buffer = new byte[4096];
        long frames = 0;
        long Spent(int steps)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            for (var i = 0; i < steps; i++)
            {
                bench.Wait(TimeSpan.FromMilliseconds(2));
                chip.Step();
                frames += chip.Read(buffer, out _) == ReadStatus.Data ? 1 : 0;
            }

            return GC.GetAllocatedBytesForCurrentThread() - before;
        }

        // What the fake clock itself allocates for moving is taken off; twelve seconds hold twelve looks at the settings and no announcement.
        _ = Spent(3000);
        frames = 0;
        var own = Spent(6000);
        var clock = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 6000; i++)
        {
            bench.Wait(TimeSpan.FromMilliseconds(2));
        }

        clock = GC.GetAllocatedBytesForCurrentThread() - clock;
        Assert.InRange(frames, 3000, 6000);
        Assert.InRange(own - clock, 0, 2048);
    }

    [Fact]
    public void The_thread_drains_by_itself_and_ends_with_its_source()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 1000);
        var driver = ChipDevices.Driver(bench.Settings, bench.Spi);
        Assert.Null(driver.Start(bench.Wait));
        using (var chip = new ChipSource(driver, bench.Settings, 1, TimeProvider.System))
        {
            var buffer = new byte[4096];
            var bytes = 0;
            for (var i = 0; i < 200 && bytes < 1500; i++)
            {
                bench.Time.Advance(TimeSpan.FromMilliseconds(8));
                _ = chip.Read(buffer, out var count);
                bytes += count;
            }

            Assert.InRange(bytes, 1500, 5600);
            bench.Chip.Trouble = BusTrouble.NoAcknowledgement;
            var status = ReadStatus.Data;
            for (var i = 0; i < 50 && status != ReadStatus.Closed; i++)
            {
                status = chip.Read(buffer, out _);
            }

            Assert.Equal(ReadStatus.Closed, status);
            Assert.Contains("does not acknowledge", chip.Fate, StringComparison.Ordinal);
        }

        var transfers = bench.Chip.Transfers;
        using var wait = new ManualResetEvent(false);
        _ = wait.WaitOne(50);
        Assert.Equal(transfers, bench.Chip.Transfers);
    }
}
