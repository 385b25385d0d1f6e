using System.Globalization;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>Names the causes that a history of captures points to; silence is an answer.</summary>
public static class HistoryRules
{
    /// <summary>The id where there is not enough to go by.</summary>
    public const string TooLittle = "too-little-evidence";

    private const int FewestCompared = 3;
    private const double Clear = 0.5;
    private const double Worth = 0.05;

    /// <summary>The model of the symptoms is never surer than this of being the right one.</summary>
    private const double MostConfident = 0.95;

    /// <summary>Who goes through the guided checks without captures to compare has seen something amiss: health counts for no more than this.</summary>
    private const double HealthyUnseen = 0.1;

    private const double Rival = 0.2;
    private const double Noticeable = 2.5;
    private const int MostCauses = 3;
    private const int MostSentences = 5;

    /// <summary>Gives the causes in the light of the captures and of what guided checks found, the likeliest first; empty where the machine is as it was.</summary>
    public static IReadOnlyList<CauseFinding> Look(HistoryReport history)
    {
        var found = history.Found;
        if (HistoryEvidence.Of(history.Points) is not { } evidence)
        {
            if (CheckWeights.Last(found).Count > 0)
            {
                return LookAt(found);
            }

            return
            [
                Little(string.Create(
                    CultureInfo.InvariantCulture,
                    $"There {(history.Points.Count == 1 ? "is" : "are")} {Counted.Of(history.Points.Count, "capture")}; {HistoryEvidence.FewestHealthy} of the healthy machine and one of now are needed to compare.")),
            ];
        }

        var choices = CheckWeights.Last(found);
        var shares = CauseTable.Weigh(evidence);
        return Named(choices.Count == 0 ? shares : CheckWeights.Apply(shares, choices), evidence, choices);
    }

    /// <summary>Gives the causes that evidence points to, the likeliest first; empty where the machine is as it was.</summary>
    public static IReadOnlyList<CauseFinding> LookAt(Evidence evidence) => Named(CauseTable.Weigh(evidence), evidence, []);

    /// <summary>Gives the causes that guided checks alone point to, the likeliest first; empty where they point to none.</summary>
    public static IReadOnlyList<CauseFinding> LookAt(IReadOnlyList<CheckFound> found)
    {
        var nothing = new Evidence { Readings = [], Missing = [], HealthyCaptures = 0, Captures = 0 };
        var shares = CauseTable.Weigh(nothing).Select(share => share with { Share = share.Cause is null ? HealthyUnseen : (1 - HealthyUnseen) / CauseTable.All.Count });
        return CheckWeights.Last(found) is { Count: > 0 } choices ? Named(CheckWeights.Apply([.. shares], choices), nothing, choices) : [];
    }

    private static IReadOnlyList<CauseFinding> Named(IReadOnlyList<CauseShare> shares, Evidence evidence, IReadOnlyList<CheckChoice> choices)
    {
        // What somebody saw is there, however healthy the captures look.
        if (shares[0].Cause is null && !choices.Any(choice => choice.IsFault))
        {
            if (choices.Count > 0)
            {
                return [];
            }

            return evidence.Compared < FewestCompared
                ? [Little("The newest captures hold too little steady running to compare the machine with what it was.")]
                : [];
        }

        var named = shares.Where(share => share.Cause is { } cause && (share.Share >= Worth || choices.Any(choice => choice.IsFault && CheckWeights.SpeaksFor(cause.Id, choice)))).Take(MostCauses).ToList();
        var findings = named.Select((share, i) => Finding(share, i == 0 ? named.Skip(1).FirstOrDefault() : named[0], evidence, choices)).ToList();
        if (named.Count == 0 || named[0].Share < Clear)
        {
            findings.Add(Little(choices.Count == 0
                ? "Something has changed, but what was measured fits no cause well enough to name one alone."
                : "What was measured and found at the checks fits no cause well enough to name one alone."));
        }

        return findings;
    }

    private static CauseFinding Little(string because) => new(
        TooLittle, "There is too little to tell what is wrong.", Clear,
        "A cause shows by what it changes and by what it leaves as it was; the fewer symptoms are measured, the more causes fit.", [because],
        [
            "Record ten seconds of steady running, and let the feeder coast down once while the sensor records.",
            "Measure at the front and at the rear of the tray at once where two sensors are at hand.",
        ],
        "More captures of the same machine tell.", null, []);

    private static CauseFinding Finding(CauseShare share, CauseShare rival, Evidence evidence, IReadOnlyList<CheckChoice> choices)
    {
        var (cause, pattern) = (share.Cause!, share.Pattern!);
        var moved = evidence.Readings
            .Where(reading => Math.Abs(reading.Deviation) > Noticeable && pattern.GetValueOrDefault(reading.Symptom.Id) != Change.Same)
            .OrderByDescending(reading => Math.Abs(reading.Deviation)).Take(MostSentences).ToList();
        List<string> because = [.. CheckWeights.Sentences(cause.Id, choices), .. moved.Select(reading => reading.Sentence())];
        if (because.Count == 0)
        {
            because.Add(evidence.Readings.Count == 0 ? "Nothing that was found speaks against it." : "No single symptom stands out; together they fit this cause better than a healthy machine.");
        }

        return new(
            cause.Id, cause.Words, Math.Min(share.Share, MostConfident), cause.Physics, because, [cause.CheckFirst[0], Rules.Isolate, .. cause.CheckFirst.Skip(1)], cause.Confirm,
            rival.Cause is { } other && Math.Min(rival.Share, share.Share) > Rival * Math.Max(rival.Share, share.Share) ? Apart(cause, other, pattern, rival.Pattern!, evidence) : null,
            moved);
    }

    /// <summary>Says that two causes cannot be told apart, and which measurement that is missing would tell.</summary>
    private static string Apart(ICause cause, ICause other, IReadOnlyDictionary<string, Change> pattern, IReadOnlyDictionary<string, Change> rival, Evidence evidence)
    {
        var telling = evidence.Missing.FirstOrDefault(symptom => pattern.GetValueOrDefault(symptom.Id) != rival.GetValueOrDefault(symptom.Id));
        var words = $"From what was measured this cannot be told apart from another cause ({other.Id}): {other.Words}";
        return telling is null ? $"{words} What would tell: {cause.Confirm}" : $"{words} What would tell: {telling.Words.ToLowerInvariant()}. {telling.Measure}";
    }
}
