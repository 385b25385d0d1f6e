using System.Globalization;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Session;

/// <summary>Where guided checks point, in words.</summary>
internal static class CheckWords
{
    /// <summary>Gives the causes in order with what was found about each; one line where nothing points anywhere.</summary>
    /// <param name="found">What was found.</param>
    /// <param name="history">What captures show beside it; null for none.</param>
    public static IReadOnlyList<string> Standing(IReadOnlyList<CheckFound> found, HistoryReport? history = null)
    {
        if (found.Count == 0 && history is null)
        {
            return [];
        }

        var causes = history is null ? HistoryRules.LookAt(found) : HistoryRules.Look(history with { Found = found });
        var named = causes.Where(cause => cause.Id != HistoryRules.TooLittle).ToList();
        return named.Count == 0
            ? ["So far nothing points to a fault."]
            :
            [
                "So far this points to:",
                .. named.SelectMany(cause => cause.Because.Take(4).Select(because => "     " + because)
                    .Prepend(string.Create(CultureInfo.InvariantCulture, $"  {100 * cause.Confidence,2:0} %  {cause.Words}"))),
                .. causes.Count > named.Count ? ["  No cause stands out yet; further checks tell more."] : Array.Empty<string>(),
            ];
    }

    /// <summary>Gives what was last found at a check, for the list; empty where nothing was.</summary>
    public static string Answer(GuidedCheck check, IReadOnlyList<CheckFound> found) =>
        found.Where(answer => answer.Check == check.Id).Select(answer => check.Find(answer.Choice)).LastOrDefault() is { } choice ? $": {choice.Words}" : "";
}
