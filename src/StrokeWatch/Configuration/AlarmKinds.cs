using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration;

/// <summary>A list of alarms in a configuration, by their names.</summary>
internal static class AlarmKinds
{
    /// <summary>Reads the list; null where it is not there or not as it must be.</summary>
    public static IReadOnlyList<AlarmKind>? Read(TableReader table, string key)
    {
        var all = Enum.GetValues<AlarmKind>();
        var expected = $"a list of alarms in quotes, out of {string.Join(", ", all.Select(kind => Names.Of(kind)))},";
        if (table.Items(key, expected, 0, 100, names: true) is not { } items)
        {
            return null;
        }

        var kinds = new List<AlarmKind>();
        foreach (var item in items)
        {
            if (item is string name && Names.TryParse(name, out AlarmKind kind))
            {
                kinds.Add(kind);
                continue;
            }

            table.Refuse(key, $"`{key}` holds {(item is string text ? $"\"{text}\"" : "a number")}; {expected.TrimEnd(',')} was expected");
        }

        return kinds;
    }
}
