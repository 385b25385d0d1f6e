using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Pipeline;

/// <summary>Makes one history of several captures of a feeder.</summary>
internal static class Histories
{
    private static readonly TimeSpan Counts = TimeSpan.FromDays(1);

    /// <summary>Gives the history; null of fewer than two captures, or where one has no date at all.</summary>
    /// <remarks>What guided checks found on the last day before the newest capture, and since, belongs to it.</remarks>
    public static HistoryReport? Of(IReadOnlyList<ReplayResult> results) => results.Count < 2 || results.Any(result => result.Date is null)
        ? null
        : new(results[0].Report.Feeder, results.Select(result => new HistoryPoint(result.File, result.Date!.Value.Recorded, result.Date.Value.Assumed, result.Features)))
        {
            Found = Newest(results) is { Date: { } newest } ? [.. results[0].Checks.Where(check => check.Utc >= newest.Recorded - Counts).Select(check => new CheckFound(check.Check, check.Answer))] : [],
        };

    /// <summary>Gives the newest capture, of equal dates the last by name; null where one has no date.</summary>
    public static ReplayResult? Newest(IReadOnlyList<ReplayResult> results) => results.Count == 0 || results.Any(result => result.Date is null)
        ? null
        : results.OrderBy(result => result.Date!.Value.Recorded).ThenBy(result => result.File, StringComparer.Ordinal).Last();
}
