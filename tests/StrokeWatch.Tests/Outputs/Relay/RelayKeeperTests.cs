using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Outputs.Relay;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Relay;

public sealed class RelayKeeperTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    private readonly FakeTimeProvider clock = new(Noon);
    private readonly RecordingDriver driver;
    private readonly List<(bool Trouble, string Words)> told = [];

    public RelayKeeperTests() => driver = new(clock);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_line_is_an_output_with_the_value_that_drops_the_relay_from_its_first_instant_and_never_pulses(bool activeLow)
    {
        using (var keeper = Keep(new() { Chip = 0, Line = 17, ActiveLow = activeLow }))
        {
            keeper.Step();
            Pass(keeper, 1, well: true);
            Assert.Equal([(Noon, "open", 17, null), (Noon, "mode with value", 17, (bool?)activeLow)], driver.Log);

            // Energised once something was measured and is well, not before.
            keeper.Measured();
            Pass(keeper, 1, well: true);
            Assert.True(keeper.Energised);
        }

        Assert.Equal([activeLow, !activeLow, activeLow], driver.Levels);
        Assert.Equal(["write", "close"], driver.Log.Select(entry => entry.What).TakeLast(2));
    }

    [Fact]
    public void An_alarm_drops_it_at_once_and_its_end_lets_it_pull_again()
    {
        using var keeper = Energised(new() { Chip = 0, Line = 4 });
        keeper.Beat(well: false);
        keeper.Step();
        Assert.Equal((clock.GetUtcNow(), "write", 4, false), driver.Log[^1]);
        Pass(keeper, 10, well: false);
        Assert.Equal([false, true, false], driver.Levels);
        keeper.Beat(well: true);
        keeper.Step();
        Assert.Equal([false, true, false, true], driver.Levels);
    }

    [Fact]
    public void A_chain_that_gives_no_sign_of_life_drops_it()
    {
        using var keeper = Energised(new() { Chip = 0, Line = 4 });
        clock.Advance(RelayKeeper.Patience);
        keeper.Step();
        Assert.True(keeper.Energised);
        clock.Advance(TimeSpan.FromMilliseconds(50));
        keeper.Step();
        Assert.False(keeper.Energised);
        Pass(keeper, 1, well: true);
        Assert.True(keeper.Energised);
    }

    [Fact]
    public void The_heartbeat_goes_off_and_on_in_its_period_while_all_is_well_and_stands_off_while_it_is_not()
    {
        using var keeper = Energised(new() { Chip = 0, Line = 4, Heartbeat = TimeSpan.FromSeconds(2) });
        Pass(keeper, 20, well: true);
        var edges = driver.Log.Where(entry => entry.What == "write").ToList();
        Assert.InRange(edges.Count, 20, 22);
        Assert.All(edges.Zip(edges.Skip(1)).Skip(1), pair => Assert.Equal((1.0, pair.First.High), ((pair.Second.At - pair.First.At).TotalSeconds, !pair.Second.High)));
        keeper.Beat(well: false);
        Pass(keeper, 10, well: false);
        var after = driver.Log.Count;
        Assert.False(driver.Levels[^1]);
        Pass(keeper, 10, well: false);
        Assert.Equal(after, driver.Log.Count);
    }

    [Fact]
    public void A_line_that_cannot_be_used_is_told_once_and_tried_again_and_starts_de_energised_then()
    {
        var there = false;
        using var keeper = new RelayKeeper(
            new() { Chip = 3, Line = 4 }, clock, () => there ? new GpioLine(new() { Chip = 3, Line = 4 }, driver) : throw new IOException("/dev/gpiochip3 is not there"), (trouble, words) => told.Add((trouble, words)));
        keeper.Measured();
        Pass(keeper, 5, well: true);
        Assert.Null(keeper.Energised);
        Assert.StartsWith("Relay: /dev/gpiochip3 is not there: it cannot be energised", Assert.Single(told).Words, StringComparison.Ordinal);
        Assert.Equal(told[0].Words, keeper.Trouble);
        there = true;
        Pass(keeper, 15, well: true);
        Assert.Equal([false, true], driver.Levels);
        Assert.Equal((false, null), (told[^1].Trouble, keeper.Trouble));

        driver.Broken = true;
        keeper.Beat(well: false);
        keeper.Step();
        Assert.Contains("the chip has gone", keeper.Trouble, StringComparison.Ordinal);
        Assert.Equal("close", driver.Log[^1].What);
    }

    [Fact]
    public async Task On_its_own_thread_it_drops_within_a_tenth_of_a_second_of_being_told()
    {
        var real = new RecordingDriver(TimeProvider.System);
        var options = new RelayOptions { Chip = 0, Line = 4 };
        using (var keeper = RelayKeeper.Start(options, TimeProvider.System, () => new GpioLine(options, real), (trouble, words) => told.Add((trouble, words))))
        {
            keeper.Measured();
            keeper.Beat(well: true);
            for (var i = 0; i < 200 && keeper.Energised != true; i++)
            {
                await Task.Delay(10);
            }

            Assert.True(keeper.Energised);
            var asked = TimeProvider.System.GetUtcNow();
            keeper.Beat(well: false);
            for (var i = 0; i < 200 && keeper.Energised != false; i++)
            {
                await Task.Delay(10);
            }

            Assert.InRange(real.Log[^1].At - asked, TimeSpan.Zero, TimeSpan.FromSeconds(0.5));
            keeper.Beat(well: true);
        }

        Assert.False(real.Levels[^1]);
        Assert.Equal("close", real.Log[^1].What);
        Assert.Empty(told);
    }

    private RelayKeeper Keep(RelayOptions options) => new(options, clock, () => new GpioLine(options, driver), (trouble, words) => told.Add((trouble, words)));

    private RelayKeeper Energised(RelayOptions options)
    {
        var keeper = Keep(options);
        keeper.Measured();
        keeper.Beat(well: true);
        keeper.Step();
        Assert.True(keeper.Energised);
        return keeper;
    }

    private void Pass(RelayKeeper keeper, double seconds, bool well)
    {
        for (var i = 0; i < 20 * seconds; i++)
        {
            clock.Advance(TimeSpan.FromMilliseconds(50));
            keeper.Beat(well);
            keeper.Step();
        }
    }
}
