using System.Text.RegularExpressions;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Findings;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Findings;

/// <summary>Nothing that takes hands to the machine comes before it is isolated and locked out (after OSHA 29 CFR 1910.147(d)); the words are a practitioner's.</summary>
public sealed partial class SafeOrderTests
{
    public static TheoryData<string> RuleIds() => [.. Rules.Ids];

    public static TheoryData<string> CauseIds() => [.. CauseTable.All.Select(cause => cause.Id)];

    [Theory]
    [MemberData(nameof(RuleIds))]
    public void A_rule_sends_no_hands_to_a_machine_that_is_not_locked_out(string id) =>
        Safe(FindingReports.All[id].Findings.Single(finding => finding.Id == id).CheckFirst);

    /// <summary>The finding puts the lock-out behind the first check, which must need eyes and ears alone.</summary>
    [Theory]
    [MemberData(nameof(CauseIds))]
    public void The_first_check_of_a_cause_needs_no_hands(string id)
    {
        var cause = CauseTable.All.Single(each => each.Id == id);
        Safe([cause.CheckFirst[0], Rules.Isolate, .. cause.CheckFirst.Skip(1)]);
        Assert.Matches("hands off|^(Ask|Record|Compare|Look whether the controller)", cause.CheckFirst[0]);
        Assert.True(cause.CheckFirst.Count >= 2);
    }

    /// <summary>A term of signal processing may follow in brackets; without it the sentence must still tell what to do.</summary>
    [Theory]
    [MemberData(nameof(CauseIds))]
    public void No_check_and_no_confirmation_of_a_cause_needs_a_term_of_signal_processing(string id)
    {
        var cause = CauseTable.All.Single(each => each.Id == id);
        Assert.All([cause.Words, cause.Physics, cause.Confirm, .. cause.CheckFirst], words => Assert.DoesNotMatch(Terms(), Brackets().Replace(words, "")));
    }

    [Theory]
    [MemberData(nameof(RuleIds))]
    public void No_finding_of_a_rule_needs_a_term_of_signal_processing(string id)
    {
        var finding = FindingReports.All[id].Findings.Single(each => each.Id == id);
        Assert.All([.. finding.Because, .. finding.CheckFirst], words => Assert.DoesNotMatch(Terms(), Brackets().Replace(words, "")));
    }

    private static void Safe(IReadOnlyList<string> checks)
    {
        var locked = checks.TakeWhile(check => check != Rules.Isolate).Count();
        Assert.All(checks.Take(locked), check => Assert.DoesNotMatch(Hands(), check));
        Assert.True(locked < checks.Count || !checks.Any(check => Hands().IsMatch(check)), "hands without a lock-out");
    }

    [GeneratedRegex(@"\b(feel|tap|wipe|press|measure the|empty the|clean|tighten|loosen|take (the|apart|out)|put (a|another|spacers)|set the|screw|fix a|torque|gauge|check (the|that) sensor's cable|look for a (cracked|loose)|dye)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Hands();

    [GeneratedRegex(@"\b(spectrum|harmonics?|fundamental|fft|(?<!true-)rms|crest|kurtosis|orders?|phase angle|damping ratio|ellipse ratio|rail|clipp\w+|amplitude|transfer|resonance)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Terms();

    [GeneratedRegex(@"\([^)]*\)")]
    private static partial Regex Brackets();
}
