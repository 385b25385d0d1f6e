using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Diagnosis.Checks;

public sealed class CheckTableTests
{
    public static TheoryData<string> Ids() => [.. CheckTable.All.Select(check => check.Id)];

    [Fact]
    public void What_needs_no_lock_out_comes_first() =>
        Assert.Equal(CheckTable.All.OrderBy(check => check.LockOut).Select(check => check.Id), CheckTable.All.Select(check => check.Id));

    [Theory]
    [MemberData(nameof(Ids))]
    public void Over_what_may_be_found_the_probabilities_given_a_cause_come_to_one(string id)
    {
        var check = CheckTable.Find(id)!;
        foreach (var cause in CauseTable.All.Select(cause => cause.Id).Append(CheckTable.Healthy))
        {
            Assert.Equal(1, check.Choices.Sum(choice => choice.Probability(cause)), 1e-12);
        }

        Assert.All(check.Choices, choice => Assert.Empty(choice.Given.Keys.Except(CauseTable.All.Select(cause => cause.Id).Append(CheckTable.Healthy))));
        Assert.All(check.Choices, choice => Assert.StartsWith("You found ", choice.Found, StringComparison.Ordinal));
        Assert.Equal(check.Choices.Skip(1), check.Choices.Where(choice => choice.IsFault));
        Assert.Equal(check.Choices.Count, check.Choices.Select(choice => choice.Id).Distinct().Count());
    }

    [Theory]
    [InlineData("cracks", "crack", "tray-cracked")]
    [InlineData("bolts", "loose", "clamp-loose")]
    [InlineData("leaf-drop", "clacks", "leaf-cracked")]
    [InlineData("rubbing", "touches", "tray-rubbing")]
    [InlineData("debris", "built-up", "tray-heavier")]
    [InlineData("voltage", "low", "supply")]
    [InlineData("air-gap", "small", "air-gap")]
    public void What_is_found_puts_its_cause_first_and_is_the_evidence(string check, string choice, string cause)
    {
        var findings = HistoryRules.LookAt([new(check, choice)]);
        Assert.Equal(cause, findings[0].Id);
        Assert.Equal(CheckTable.Find(check)!.Find(choice)!.Found, findings[0].Because[0]);
    }

    [Fact]
    public void A_share_is_Bayes_rule_by_hand()
    {
        // Fifteen causes share 0.9, health has 0.1: 0.06 × 0.88 against 0.06 × 14 × 0.02 and 0.1 × 0.005.
        Assert.Equal(15, CauseTable.All.Count);
        var share = 0.06 * 0.88 / ((0.06 * 0.88) + (0.06 * 14 * 0.02) + (0.1 * 0.005));
        Assert.Equal(share, HistoryRules.LookAt([new("cracks", "crack")])[0].Confidence, 1e-12);
    }

    [Fact]
    public void The_last_answer_to_a_check_counts_and_a_clean_look_speaks_against_a_cause()
    {
        var first = HistoryRules.LookAt([new("cracks", "crack"), new("bolts", "loose")]);
        Assert.Equal(["tray-cracked", "clamp-loose"], first.Take(2).Select(finding => finding.Id).OrderDescending());
        var then = HistoryRules.LookAt([new("cracks", "crack"), new("bolts", "loose"), new("cracks", "none")]);
        Assert.Equal("clamp-loose", then[0].Id);
        Assert.DoesNotContain(then, finding => finding.Id == "tray-cracked");
        var against = HistoryRules.LookAt([new("leaf-sound", "dull"), new("bolts", "tight"), new("leaf-drop", "rings")]).First(finding => finding.Id == "leaf-cracked");
        Assert.Contains("Against it: you found every leaf ringing when it was dropped.", against.Because);
    }

    [Fact]
    public void Beside_captures_each_answer_multiplies_the_shares_and_stands_in_the_evidence()
    {
        var history = SimulatedHistory.Run(FaultHistory.Draw(5001, new() { Kind = "leaf-missing-rear", Captures = 7, Severity = 0.9, Growth = FaultGrowth.Sudden }));
        var before = CauseTable.Weigh(HistoryEvidence.Of(history.Points)!).ToDictionary(share => share.Cause?.Id ?? CheckTable.Healthy, share => share.Share);
        var dull = CheckTable.Find("leaf-sound")!.Find("dull")!;
        var after = CheckWeights.Apply(CauseTable.Weigh(HistoryEvidence.Of(history.Points)!), [dull]).ToDictionary(share => share.Cause?.Id ?? CheckTable.Healthy, share => share.Share);
        Assert.Equal(1, after.Values.Sum(), 1e-9);
        Assert.All(after, row => Assert.Equal(before[row.Key] * dull.Probability(row.Key) / (before["leaf-cracked"] * 0.80), row.Value / after["leaf-cracked"], 1e-9));
        var told = HistoryRules.Look(history with { Found = [new("leaf-sound", "dull")] });
        Assert.Equal(("leaf-cracked", dull.Found), (told[0].Id, told[0].Because[0]));
        Assert.True(told[0].Because.Count > 1);
    }

    [Fact]
    public void A_crack_that_somebody_saw_is_named_however_healthy_the_captures_look()
    {
        var history = SimulatedHistory.Run(FaultHistory.Draw(5002, new() { Kind = HistoryWishes.Healthy, Captures = 7 }));
        Assert.Empty(HistoryRules.Look(history));
        Assert.Empty(HistoryRules.Look(history with { Found = [new("cracks", "none")] }));
        var told = HistoryRules.Look(history with { Found = [new("cracks", "crack")] });
        Assert.Equal(("tray-cracked", "You found a crack in the tray, a weld or a bracket."), (told[0].Id, told[0].Because[0]));
    }

    [Fact]
    public void Without_an_answer_nothing_is_said_and_what_is_not_known_is_passed_over()
    {
        Assert.Empty(HistoryRules.LookAt([]));
        Assert.Empty(HistoryRules.LookAt([new("moon", "full"), new("cracks", "maybe")]));
    }
}
