using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A scenario's tables [[faults]], and dates.</summary>
internal static class FaultTables
{
    /// <summary>Reads the faults; none where there are no such tables.</summary>
    public static IReadOnlyList<SimulatedFault> Read(TableReader root) =>
        [.. (root.Rows("faults", "a list of tables [[faults]], each with a kind,", Fault) ?? []).OfType<SimulatedFault>()];

    /// <summary>Reads a date; null where there is none.</summary>
    public static DateTimeOffset? Date(TableReader table, string key)
    {
        const string expected = "a date and time in quotes such as \"2026-03-01T08:00:00Z\"";
        if (table.Text(key, expected) is not { } text)
        {
            return null;
        }

        var date = RecordedDate.Parse(text);
        if (date is null)
        {
            table.Refuse(key, $"`{table.Title}.{key}` is \"{text}\"; {expected} was expected");
        }

        return date;
    }

    /// <summary>Reads a kind of fault; null, and an error with the nearest and all, where it is unknown.</summary>
    public static string? Kind(TableReader row, string key, params string[] more)
    {
        IReadOnlyList<string> known = [.. FaultTable.Names, .. more];
        if (row.Text(key, "the name of a fault in quotes") is not { } kind)
        {
            return null;
        }

        if (known.Contains(kind))
        {
            return kind;
        }

        row.Refuse(key, $"unknown fault \"{kind}\"; did you mean \"{EditDistance.Nearest(kind, known)}\"? Known are {string.Join(", ", known)}");
        return null;
    }

    private static SimulatedFault? Fault(TableReader row)
    {
        row.Require("kind", "the name of a fault in quotes");
        var kind = Kind(row, "kind");
        var severity = row.Number("severity", 0, 1) ?? 1;
        var from = row.Number("from_s", 0, TimeSpans.LongRun, "s") ?? 0;
        return kind is null ? null : new(kind, severity, from);
    }
}
