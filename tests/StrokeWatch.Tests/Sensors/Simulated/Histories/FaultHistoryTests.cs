using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Faults;
using StrokeWatch.Sensors.Simulated.Histories;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated.Histories;

public sealed class FaultHistoryTests
{
    [Fact]
    public void The_same_seed_gives_the_same_history_and_another_another()
    {
        var (one, two, other) = (FaultHistory.Draw(11), FaultHistory.Draw(11), FaultHistory.Draw(12));
        Assert.Equal((one.Kind, one.Growth, one.Onset), (two.Kind, two.Growth, two.Onset));
        Assert.Equal(one.Captures.Select(capture => (capture.Recorded, capture.Severity)), two.Captures.Select(capture => (capture.Recorded, capture.Severity)));
        Assert.Equal(Runs.Of(one.Captures[0].Scenario).Z, Runs.Of(two.Captures[0].Scenario).Z);
        Assert.NotEqual(one.Feeder.Masses, other.Feeder.Masses);
    }

    [Fact]
    public void A_fault_comes_after_healthy_captures_and_grows_as_it_is_asked_to()
    {
        foreach (var growth in Enum.GetValues<FaultGrowth>())
        {
            var severities = FaultHistory.Draw(3, new() { Kind = "tray-heavier", Growth = growth, Severity = 0.8, Captures = 10 }).Captures.Select(capture => capture.Severity).ToList();
            Assert.All(severities.Take(4), severity => Assert.Equal(0, severity));
            Assert.Equal(0.8, severities[^1], 12);
            var fallen = severities.Where(severity => severity > 0).ToList();
            Assert.True(growth == FaultGrowth.Sudden ? fallen.All(severity => severity == 0.8) : fallen.SequenceEqual(fallen.Distinct().Order()), growth.ToString());
        }
    }

    [Fact]
    public void A_feeder_on_the_reverse_side_is_so_from_its_first_capture_and_a_healthy_one_never_changes()
    {
        Assert.All(FaultHistory.Draw(3, new() { Kind = "reverse-side" }).Captures, capture => Assert.True(capture.Severity > 0));
        var healthy = FaultHistory.Draw(3, new() { Kind = HistoryWishes.Healthy });
        Assert.All(healthy.Captures, capture => Assert.Empty(capture.Scenario.Faults));
        Assert.Null(healthy.Onset);
    }

    [Fact]
    public void Chance_draws_every_kind_and_healthy_feeders()
    {
        var kinds = Enumerable.Range(0, 400).Select(seed => FaultHistoryKind((ulong)seed)).ToHashSet();
        Assert.Empty(FaultTable.Names.Except(kinds));
        Assert.Contains(HistoryWishes.Healthy, kinds);
    }

    [Fact]
    public void A_replayed_history_lists_dated_features_and_shows_the_crack()
    {
        var report = SimulatedHistory.Run(FaultHistory.Draw(7, new() { Kind = "leaf-cracked-front", Growth = FaultGrowth.Linear, Captures = 6, Severity = 1 }));
        Assert.Equal(6, report.Points.Count);
        var series = report.Series(FeatureTable.All.Single(feature => feature.Name == "natural_frequency_hz"));
        Assert.True(series.Count >= 3, $"{series.Count} coast-downs");
        Assert.True(series[^1].Value < 0.98 * series[0].Value, string.Join(", ", series));
        Assert.All(report.Points.Zip(report.Points.Skip(1)), pair => Assert.True(pair.First.Recorded < pair.Second.Recorded));
    }

    private static string FaultHistoryKind(ulong seed) => FaultHistory.DrawKind(seed) ?? HistoryWishes.Healthy;
}
