using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Csv;

/// <summary>Carries what a reader rejected to the counters of the source.</summary>
internal static class CsvRejects
{
    /// <summary>Counts everything rejected since the last call.</summary>
    public static void Count(RowReader reader, SourceCounters counters)
    {
        for (var outcome = RowOutcome.NotANumber; outcome <= RowOutcome.Truncated; outcome++)
        {
            if (reader.TakeRejected(outcome) is > 0 and var count)
            {
                counters.Reject(Name(outcome), count);
            }
        }
    }

    private static string Name(RowOutcome outcome) => outcome switch
    {
        RowOutcome.EmptyCell => RejectReasons.EmptyCell,
        RowOutcome.TooFewColumns => RejectReasons.TooFewColumns,
        RowOutcome.TooManyColumns => RejectReasons.TooManyColumns,
        RowOutcome.NanOrInfinite => RejectReasons.NanOrInfinite,
        RowOutcome.ErrorText => RejectReasons.ErrorText,
        RowOutcome.Truncated => RejectReasons.Truncated,
        _ => RejectReasons.NotANumber,
    };
}
