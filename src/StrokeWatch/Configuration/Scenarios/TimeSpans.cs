using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A scenario's lists of times from and to, such as [[on]].</summary>
internal static class TimeSpans
{
    /// <summary>The latest instant that a scenario can name, in seconds; an end that is not said.</summary>
    public const double LongRun = 1e6;

    /// <summary>Reads the spans in seconds; empty where there are none; spans that overlap or end before they begin are refused.</summary>
    public static IReadOnlyList<(double From, double To)> Read(TableReader root, string key)
    {
        var spans = root.Rows(key, $"a list of tables [[{key}]] with from_s and to_s", row => (
            From: row.Number("from_s", 0, LongRun, "s") ?? 0, To: row.Number("to_s", 0, LongRun, "s") ?? LongRun)) ?? [];
        var instants = spans.SelectMany(span => new[] { span.From, span.To }).ToList();
        if (instants.Zip(instants.Skip(1)).Any(pair => pair.Second <= pair.First))
        {
            root.Refuse(key, $"a span of [[{key}]] ends before it begins, or begins before the one before it has ended; spans one after the other were expected");
        }

        return spans;
    }
}
