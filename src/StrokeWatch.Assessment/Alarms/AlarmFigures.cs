namespace StrokeWatch.Assessment.Alarms;

/// <summary>Works out from the journal what the alarms asked of people. Pure.</summary>
/// <remarks>Criteria from IEC 62682, ANSI/ISA-18.2 and EEMUA 191, from memory; the chatter index of Kondaveeti, Izadi, Shah and others (ChERD 2013), from memory.</remarks>
public static class AlarmFigures
{
    /// <summary>The chatter index in 1/s from which an alarm chatters: three a minute.</summary>
    public const double ChatterLimit = 0.05;

    private const int FloodFrom = 10;
    private const int FloodUntil = 5;
    private const int ChatterTimes = 3;
    private static readonly TimeSpan FloodSpan = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan ChatterSpan = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan FleetingSpan = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan StaleSpan = TimeSpan.FromDays(1);
    private static readonly TimeSpan RegainSpan = TimeSpan.FromMinutes(10);

    /// <summary>Works the figures out.</summary>
    /// <param name="journal">The steps in order of time; those before the span tell what stood at its beginning.</param>
    /// <param name="from">The beginning of the span.</param>
    /// <param name="to">Its end, not before its beginning.</param>
    /// <param name="table">The priorities.</param>
    /// <param name="starts">When the program was started, in order: what held before has ended then, unless it is found again within minutes.</param>
    public static AlarmLoad Of(IReadOnlyList<AlarmStep> journal, DateTimeOffset from, DateTimeOffset to, AlarmTable table, IReadOnlyList<DateTimeOffset>? starts = null)
    {
        List<AlarmStep> announced = [.. journal.Where(step => step.Announces && step.At >= from && step.At < to)];
        var byId = announced.GroupBy(step => step.Id).OrderByDescending(group => group.Count()).ThenBy(group => group.Key.ToString(), StringComparer.Ordinal).ToList();
        var standing = Standing(journal, starts ?? [], to);
        return new()
        {
            From = from,
            To = to,
            Announced = announced.Count,
            Chattering = [.. byId.Select(group => (group.Key, Times: group.Select(step => step.At).ToList())).Where(one => Chatters(one.Times)).Select(one => (one.Key, ChatterIndex(Runs(one.Times))))],
            Fleeting = announced.Count(step => Fleets(step, standing, announced)),
            Stale =
            [
                .. standing.Where(one => one.To > from && one.From < to && one.To - one.From > StaleSpan).GroupBy(one => one.Id)
                    .Select(group => (group.Key, group.Max(one => one.To - one.From))),
            ],
            Floods = Floods([.. announced.Select(step => step.At)], to),
            Priorities = Enum.GetValues<AlarmPriority>().ToDictionary(priority => priority, priority => announced.Count(step => table[step.Id.Kind].Priority == priority)),
            MostFrequent = [.. byId.Select(group => (group.Key, group.Count()))],
        };
    }

    /// <summary>Gives the chatter index in 1/s: the mean of one over each run, the time in seconds from one announcement of an alarm to its next; 0 without runs.</summary>
    public static double ChatterIndex(IReadOnlyList<double> runSeconds) => runSeconds.Count == 0 ? 0 : runSeconds.Average(run => 1 / Math.Max(run, 1e-3));

    private static List<double> Runs(List<DateTimeOffset> times) => [.. times.Zip(times.Skip(1), (one, next) => (next - one).TotalSeconds)];

    /// <summary>An alarm chatters where it is announced three times within a minute, or where its index says as much over the whole span.</summary>
    private static bool Chatters(List<DateTimeOffset> times)
    {
        for (var i = ChatterTimes - 1; i < times.Count; i++)
        {
            if (times[i] - times[i - ChatterTimes + 1] <= ChatterSpan)
            {
                return true;
            }
        }

        return times.Count >= ChatterTimes && ChatterIndex(Runs(times)) > ChatterLimit;
    }

    private static bool Fleets(AlarmStep step, List<(AlarmId Id, DateTimeOffset From, DateTimeOffset To, bool Over)> standing, List<AlarmStep> announced)
    {
        var stood = standing.Find(one => one.Id == step.Id && one.From <= step.At && one.To >= step.At);
        return stood.Over && stood.To - step.At < FleetingSpan
            && !announced.Exists(other => other.Id == step.Id && other.At != step.At && (other.At - step.At).Duration() <= ChatterSpan);
    }

    /// <summary>Gives when each alarm's condition held, seen or not. A stop of the program writes no end of it: the next start does, unless the condition is found again soon after.</summary>
    private static List<(AlarmId Id, DateTimeOffset From, DateTimeOffset To, bool Over)> Standing(IReadOnlyList<AlarmStep> journal, IReadOnlyList<DateTimeOffset> starts, DateTimeOffset to)
    {
        var open = new Dictionary<AlarmId, DateTimeOffset>();
        var left = new Dictionary<AlarmId, (DateTimeOffset Since, DateTimeOffset Start)>();
        var spans = new List<(AlarmId, DateTimeOffset, DateTimeOffset, bool)>();
        var next = 0;
        foreach (var step in journal.Where(step => step.At < to))
        {
            Restart(step.At);
            if (step.Act == AlarmAct.Activate && !open.ContainsKey(step.Id))
            {
                var again = left.Remove(step.Id, out var before) && step.At - before.Start <= RegainSpan;
                if (!again && before.Start > before.Since)
                {
                    spans.Add((step.Id, before.Since, before.Start, true));
                }

                open[step.Id] = again ? before.Since : step.At;
            }
            else if (step.Act == AlarmAct.Clear && open.Remove(step.Id, out var since))
            {
                spans.Add((step.Id, since, step.At, true));
            }
        }

        Restart(to);
        spans.AddRange(left.Select(pair => (pair.Key, pair.Value.Since, pair.Value.Start, true)));
        spans.AddRange(open.Select(pair => (pair.Key, pair.Value, to, false)));
        return spans;

        void Restart(DateTimeOffset until)
        {
            for (; next < starts.Count && starts[next] < until; next++)
            {
                foreach (var (id, since) in open)
                {
                    left[id] = (since, starts[next]);
                }

                open.Clear();
            }
        }
    }

    private static List<(DateTimeOffset From, DateTimeOffset To)> Floods(List<DateTimeOffset> times, DateTimeOffset to)
    {
        var floods = new List<(DateTimeOffset, DateTimeOffset)>();
        DateTimeOffset? since = null;
        var first = 0;
        for (var next = 0; next < times.Count || first < next;)
        {
            // The count changes where an announcement comes, and where one is ten minutes old.
            var leaves = first < next ? times[first] + FloodSpan : DateTimeOffset.MaxValue;
            var comes = next < times.Count ? times[next] : DateTimeOffset.MaxValue;
            var at = comes < leaves ? comes : leaves;
            (first, next) = comes < leaves ? (first, next + 1) : (first + 1, next);
            if (at >= to)
            {
                break;
            }

            if (since is null && next - first > FloodFrom)
            {
                since = at;
            }
            else if (since is { } began && next - first < FloodUntil)
            {
                floods.Add((began, at));
                since = null;
            }
        }

        if (since is { } open)
        {
            floods.Add((open, to));
        }

        return floods;
    }
}
