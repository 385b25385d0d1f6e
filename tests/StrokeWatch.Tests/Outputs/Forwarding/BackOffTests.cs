using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Outputs.Forwarding;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Forwarding;

public sealed class BackOffTests
{
    private readonly FakeTimeProvider clock = new();

    [Fact]
    public void Waits_double_up_to_the_longest_and_are_spread_from_half_to_all_of_it()
    {
        var off = Make(7);
        for (var failure = 0; failure < 60; failure++)
        {
            var whole = Math.Min(Math.Pow(2, failure), 300);
            Assert.InRange(off.Failed().TotalSeconds, 0.5 * whole, whole);
        }

        off.Succeeded();
        Assert.Equal(TimeSpan.Zero, off.Left);
        Assert.InRange(off.Failed().TotalSeconds, 0.5, 1);
    }

    [Fact]
    public void What_is_left_runs_down_with_the_clock_and_not_with_its_date()
    {
        var off = Make(7);
        Assert.Equal(TimeSpan.Zero, off.Left);
        var wait = off.Failed(TimeSpan.FromSeconds(60));
        clock.Advance(TimeSpan.FromSeconds(20));
        Assert.Equal((wait - TimeSpan.FromSeconds(20)).TotalSeconds, off.Left.TotalSeconds, 6);
        clock.Advance(wait);
        Assert.Equal(TimeSpan.Zero, off.Left);
    }

    [Fact]
    public void A_server_that_asks_for_time_gets_it_but_no_more_than_an_hour()
    {
        Assert.InRange(Make(7).Failed(TimeSpan.FromSeconds(120)).TotalSeconds, 120, 132);
        Assert.InRange(Make(7).Failed(TimeSpan.FromDays(30)).TotalSeconds, 3600, 3960);
        Assert.InRange(Make(7).Failed(TimeSpan.Zero).TotalSeconds, 0.5, 1);
    }

    [Fact]
    public void A_thousand_feeders_that_lost_one_server_do_not_come_back_at_once()
    {
        var waits = Enumerable.Range(0, 1000).Select(i =>
        {
            var off = Make(BackOff.SeedOf($"Feeder {i}"));
            for (var failure = 0; failure < 11; failure++)
            {
                off.Failed();
            }

            return off.Failed().TotalSeconds;
        }).ToList();

        // The last wait lies in 150 to 300 s: spread evenly, a window of 15 s holds a tenth of them, give or take; never a third.
        Assert.All(Enumerable.Range(0, 10), i => Assert.InRange(waits.Count(w => w >= 150 + 15 * i && w < 165 + 15 * i), 50, 200));
    }

    [Theory]
    [InlineData("", 0x811c9dc5)]
    [InlineData("a", 0xe40c292c)]
    [InlineData("foobar", 0xbf9cf968)]
    public void A_name_s_seed_is_the_published_hash(string name, uint published) => Assert.Equal(published, unchecked((uint)BackOff.SeedOf(name)));

    private BackOff Make(int seed) => new(clock, seed, TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(5));
}
