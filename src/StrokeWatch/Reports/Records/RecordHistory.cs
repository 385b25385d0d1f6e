using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Reports.Records;

/// <summary>What a store holds of a feeder over a period.</summary>
internal sealed record RecordHistory
{
    /// <summary>Into how many parts the period is cut for its plot.</summary>
    public const int Parts = 320;

    private const int Most = 10_000;

    /// <summary>Gets the start of the period.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>Gets the end of the period, which no longer belongs to it.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Gets smallest and largest stroke of each part that has any.</summary>
    public required IReadOnlyList<StoredColumn> Columns { get; init; }

    /// <summary>Gets the last window that counts; null where none does.</summary>
    public StoredWindow? Last { get; init; }

    /// <summary>Gets the alarms, in order of time.</summary>
    public required IReadOnlyList<RecordAlarm> Alarms { get; init; }

    /// <summary>Gets how many alarms stand at the end of the period, also where there are more alarms than were read.</summary>
    public required int Standing { get; init; }

    /// <summary>Gets the findings raised or cleared, in order of time.</summary>
    public required IReadOnlyList<StoredFinding> Findings { get; init; }

    /// <summary>Gets what the alarms asked of people; null where the store keeps no journal of them.</summary>
    public AlarmLoad? Load { get; init; }

    /// <summary>Gets whether there are more alarms than were read.</summary>
    public bool Cut { get; init; }

    /// <summary>Reads a period from a store.</summary>
    /// <exception cref="Microsoft.Data.Sqlite.SqliteException">The store cannot be read.</exception>
    public static RecordHistory Read(StoreReader store, string feeder, DateTimeOffset from, DateTimeOffset to)
    {
        var alarms = store.Alarms(from, to, Most);
        return new()
        {
            From = from,
            To = to,
            Columns = store.StrokeColumns(feeder, from, to, Parts),
            Last = store.LastCounted(feeder, from, to),
            Alarms = Pair(store.Standing(feeder, from), [.. alarms.Where(alarm => alarm.Feeder == feeder)], store.Starts(feeder, from, to, Most)),
            Standing = store.Standing(feeder, to).Count,
            Findings = [.. store.Findings(from, to, Most).Where(finding => finding.Feeder == feeder)],
            Cut = alarms.Count == Most,
            Load = Figures(store, feeder, from, to),
        };
    }

    private static AlarmLoad? Figures(StoreReader store, string feeder, DateTimeOffset from, DateTimeOffset to)
    {
        var steps = store.LoadSteps(feeder, from, to);
        return steps.Count == 0 ? null : AlarmFigures.Of(steps, from, to, AlarmTable.Of(new()), store.Starts(feeder, steps[0].At < from ? steps[0].At : from, to));
    }

    /// <summary>Pairs what was raised with what cleared it; a start of the program ends what stood before.</summary>
    internal static IReadOnlyList<RecordAlarm> Pair(IReadOnlyList<StoredAlarm> before, IReadOnlyList<StoredAlarm> within, IReadOnlyList<DateTimeOffset> starts)
    {
        var found = new List<RecordAlarm>();
        var open = new Dictionary<AlarmKind, int>();
        foreach (var alarm in before)
        {
            open[alarm.Transition.Kind] = found.Count;
            found.Add(new(alarm.Transition.Kind, alarm.Utc, null, false, alarm.Transition.Words));
        }

        void End(AlarmKind kind, DateTimeOffset at, bool restarted)
        {
            if (open.Remove(kind, out var index))
            {
                found[index] = found[index] with { Ended = at, Restarted = restarted };
            }
        }

        var next = 0;
        foreach (var alarm in within)
        {
            for (; next < starts.Count && starts[next] <= alarm.Utc; next++)
            {
                Restart(starts[next]);
            }

            var (kind, raised) = (alarm.Transition.Kind, alarm.Transition.Raised);
            if (raised)
            {
                End(kind, alarm.Utc, true);
                open[kind] = found.Count;
                found.Add(new(kind, alarm.Utc, null, false, alarm.Transition.Words));
            }
            else if (open.ContainsKey(kind))
            {
                End(kind, alarm.Utc, false);
            }
            else
            {
                found.Add(new(kind, null, alarm.Utc, false, alarm.Transition.Words));
            }
        }

        for (; next < starts.Count; next++)
        {
            Restart(starts[next]);
        }

        return found;

        void Restart(DateTimeOffset at)
        {
            foreach (var kind in open.Keys.ToList())
            {
                End(kind, at, true);
            }
        }
    }
}
