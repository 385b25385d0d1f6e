using System.Globalization;
using StrokeWatch.Assessment.Diagnosis;

namespace StrokeWatch.Assessment.Watching;

/// <summary>Puts what has changed and what it points to into words.</summary>
internal static class Explanation
{
    /// <summary>What an operator is told when the machine has come back.</summary>
    public const string Clear = "The machine is again as it was when it was healthy, as far as it is measured.";

    private const int MostDrifts = 5;

    /// <summary>Explains drifts by the likeliest cause, or says that none fits well enough.</summary>
    /// <param name="drifts">What has changed, the furthest first; one at least.</param>
    /// <param name="evidence">The machine of now beside what it was.</param>
    /// <param name="named">The confidence from which on a cause is named.</param>
    public static WatchFinding Of(IReadOnlyList<SymptomDrift> drifts, Evidence evidence, double named)
    {
        List<string> changes = [.. drifts.Take(MostDrifts).Select(drift => drift.Sentence())];
        var causes = HistoryRules.LookAt(evidence);
        if (causes.FirstOrDefault(cause => cause.Id != HistoryRules.TooLittle) is not { } likeliest)
        {
            return new(
                WatchFinding.Unexplained, null, "The machine has changed; nothing points to a cause yet.", changes,
                causes.Count > 0 ? causes[0].CheckFirst : ["See whether material, load or supply are others than when the baseline was made, and whether the sensor sits tight."], null, null);
        }

        if (likeliest.Confidence < named)
        {
            var guess = string.Create(CultureInfo.InvariantCulture, $"Likeliest, but not surely: {likeliest.Words} ({likeliest.Id}, confidence {100 * likeliest.Confidence:0} %)");
            return new(
                WatchFinding.Unexplained, null, "The machine has changed; what was measured fits no cause well enough to name one alone.", [.. changes, guess],
                likeliest.CheckFirst, likeliest.Confirm, likeliest.TellApart);
        }

        var told = drifts.Take(MostDrifts).Select(drift => drift.Symptom.Id).ToHashSet(StringComparer.Ordinal);
        var others = likeliest.Evidence.Where(reading => !told.Contains(reading.Symptom.Id)).Select(reading => reading.Sentence());
        return new(likeliest.Id, likeliest.Confidence, likeliest.Words, [.. changes, .. others], likeliest.CheckFirst, likeliest.Confirm, likeliest.TellApart);
    }
}
