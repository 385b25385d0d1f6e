using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Diagnosis;

/// <summary>A seeded part of the benchmark project's <c>diagnosis-study</c>: machines that the causes' patterns were not set on.</summary>
public sealed class HistoryRulesTests
{
    [Theory]
    [InlineData("leaf-missing-rear", "leaf-cracked")]
    [InlineData("tray-lighter", "tray-lighter")]
    [InlineData("supply-low", "supply")]
    [InlineData("leaf-friction", "leaf-friction")]
    [InlineData("neighbour-machine", "neighbour")]
    [InlineData("stroke-uneven", "uneven-stroke")]
    [InlineData("drive-dead", "drive-out")]
    public void A_fault_that_has_come_is_named_first_with_evidence_and_a_safe_way_to_it(string kind, string cause)
    {
        var findings = HistoryRules.Look(History(5001, kind));

        Assert.Equal(cause, findings[0].Id);
        Assert.InRange(findings[0].Confidence, 0.3, 1);
        Assert.NotEmpty(findings[0].Because);
        Assert.Contains(findings[0].CheckFirst, check => check.Contains("lock it out", StringComparison.Ordinal));
    }

    [Fact]
    public void A_healthy_machine_is_left_alone()
    {
        Assert.Empty(HistoryRules.Look(History(5002, HistoryWishes.Healthy)));
    }

    [Fact]
    public void Three_captures_are_too_little_to_compare_and_that_is_said()
    {
        var history = History(5002, HistoryWishes.Healthy);
        var finding = Assert.Single(HistoryRules.Look(new(history.Feeder, history.Points.Take(3))));

        Assert.Equal("too-little-evidence", finding.Id);
        Assert.Contains("3 captures", finding.Because[0]);
    }

    [Fact]
    public void Newest_captures_without_steady_running_are_said_to_be_too_little_and_not_well()
    {
        var history = History(5002, HistoryWishes.Healthy);
        var still = history.Points.Select((point, i) => i < history.Points.Count - 2 ? point : point with { Features = new CaptureFeatures() });

        Assert.Equal("too-little-evidence", Assert.Single(HistoryRules.Look(new(history.Feeder, still))).Id);
    }

    /// <summary>Without a stop neither natural frequency nor damping is known, and with one sensor not which end moves more: what lost stiffness, gained mass or closed its gap looks much alike then.</summary>
    [Fact]
    public void Causes_that_cannot_be_told_apart_are_named_with_the_measurement_that_would_tell()
    {
        List<CauseFinding> doubtful = [];
        foreach (var kind in new[] { "tray-heavier", "leaf-cracked-front", "air-gap-small", "supply-high" })
        {
            for (var seed = 5010UL; seed < 5013; seed++)
            {
                var history = History(seed, kind);
                var less = history.Points.Select(point => point with
                {
                    Features = point.Features with { NaturalHz = null, DampingRatio = null, TuningRatio = null, FrontRear = null, FrontRearPhaseDegrees = null },
                });
                doubtful.AddRange(HistoryRules.Look(new(history.Feeder, less)).Where(finding => finding.TellApart is not null));
            }
        }

        Assert.NotEmpty(doubtful);
        Assert.All(doubtful, finding =>
        {
            Assert.Contains(CauseTable.All, cause => cause.Id != finding.Id && finding.TellApart!.Contains($"({cause.Id})", StringComparison.Ordinal));
            Assert.Contains("What would tell: ", finding.TellApart, StringComparison.Ordinal);
        });
        Assert.Contains(doubtful, finding => finding.TellApart!.Contains("coast down", StringComparison.Ordinal));
    }

    private static HistoryReport History(ulong seed, string kind) =>
        SimulatedHistory.Run(FaultHistory.Draw(seed, new() { Kind = kind, Captures = 7, Severity = 0.9, Growth = FaultGrowth.Sudden }));
}
