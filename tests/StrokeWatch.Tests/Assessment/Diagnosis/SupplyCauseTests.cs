using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Diagnosis;

/// <summary>The voltage tells the supply from whatever else changes the pull.</summary>
public sealed class SupplyCauseTests
{
    [Fact]
    public void A_captured_voltage_that_fell_makes_the_supply_surer_and_is_the_evidence()
    {
        var history = FaultHistory.Draw(5001, new() { Kind = "supply-low", Captures = 7, Severity = 0.5, Growth = FaultGrowth.Sudden });
        var before = HistoryRules.Look(SimulatedHistory.Run(history)).First();
        var with = SimulatedHistory.Run(WithChannel(history));
        var after = HistoryRules.Look(with).First();
        Assert.Equal("supply", after.Id);
        Assert.True(after.Confidence >= before.Confidence || before.Id != "supply");
        Assert.Contains(after.Because, because => because.StartsWith("The supply's voltage over full voltage: from ", StringComparison.Ordinal));
        Assert.Equal(7, with.Series(FeatureTable.All.Single(feature => feature.Name == "supply_share_of_full")).Count);
    }

    [Theory]
    [InlineData(-0.13, "supply")]
    [InlineData(0, "other")]
    public void A_pull_that_fell_is_the_supplys_with_the_voltage_and_another_cause_without(double logVoltage, string named)
    {
        var evidence = Evidence.Of([.. Enumerable.Range(0, 4).Select(i => Capture(0, 0, i))], [Capture(2 * -0.13, logVoltage, 1), Capture(2 * -0.13, logVoltage, 2)]);
        var shares = CauseTable.Weigh(evidence);
        Assert.Equal(named == "supply", shares[0].Cause?.Id == "supply");
    }

    [Fact]
    public void The_pulls_phase_does_not_move_with_a_natural_frequency_that_does()
    {
        // One machine before and after its leaves lost stiffness: the lag of 6.2 (check-values) grows from 22.28° at r = 63/60 as r comes to 1.
        static CaptureFeatures At(double natural) => new()
        {
            DriveHz = 60,
            NaturalHz = natural,
            DampingRatio = 0.02,
            SupplyPhaseDegrees = 75 - (Math.Atan2(2 * 0.02 * natural / 60, (natural / 60 * (natural / 60)) - 1) * 180 / Math.PI),
        };
        Assert.Equal(75 - 22.2816646, At(63).SupplyPhaseDegrees!.Value, 6);
        var symptom = Symptoms.All.Single(symptom => symptom.Id == Symptoms.PullPhase);
        Assert.Equal(symptom.Of(At(63))!.Value, symptom.Of(At(61))!.Value, 9);
        Assert.Null(symptom.Of(At(63) with { NaturalHz = null }));
    }

    [Fact]
    public void A_voltage_that_was_entered_or_not_known_is_missing_among_the_symptoms()
    {
        var evidence = Evidence.Of([new() { Stroke = 1.7e-3 }], [new() { Stroke = 1.6e-3 }]);
        Assert.Contains(evidence.Missing, symptom => symptom.Id == Symptoms.Voltage);
        Assert.Contains(evidence.Missing, symptom => symptom.Id == Symptoms.PullPhase);
    }

    private static FaultHistory WithChannel(FaultHistory history) => history with
    {
        Feeder = history.Feeder with { Supply = new() { FullVolts = 230 } },
        Captures = [.. history.Captures.Select(capture => capture with { Scenario = capture.Scenario with { SupplyChannel = new() } })],
    };

    private static CaptureFeatures Capture(double logStroke, double logVoltage, int seed) => new()
    {
        Stroke = 1.7e-3 * Math.Exp(logStroke + (0.004 * Math.Sin(seed))),
        DriveHz = 50,
        NaturalHz = 53 * (1 + (4e-4 * Math.Cos(seed))),
        DampingRatio = 0.02,
        TuningRatio = 1.06,
        SupplyShare = Math.Exp(logVoltage + (0.003 * Math.Sin(2 * seed))),
    };
}
