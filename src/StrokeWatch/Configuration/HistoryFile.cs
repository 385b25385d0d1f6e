using StrokeWatch.Configuration.Scenarios;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Configuration;

/// <summary>The file of a simulated history: one table [history], everything in it with a default.</summary>
internal static class HistoryFile
{
    private const string Table = "history";

    /// <summary>Says whether a file is meant as a history: it has a table [history].</summary>
    public static bool IsHistory(string path) => TomlFile.Read(path, new(path))?.Entries.ContainsKey(Table) ?? false;

    /// <summary>Reads a history file and draws its history; all that is wrong with it comes at once.</summary>
    public static ConfigurationResult<FaultHistory> Read(string path)
    {
        var errors = new ConfigurationErrors(path);
        if (TomlFile.Read(path, errors) is not { } tree)
        {
            return new(null, [.. errors]);
        }

        var root = new TableReader(tree, errors);
        var table = root.TableOrEmpty(Table);
        var seed = (ulong)(table.Integer("seed", 0, int.MaxValue) ?? 1);
        var wishes = new HistoryWishes
        {
            Kind = FaultTables.Kind(table, "kind", HistoryWishes.Healthy),
            Captures = table.Integer("captures", 2, 100),
            Growth = table.Choice("growth", "sudden", "linear", "exponential") is { } growth ? Enum.Parse<FaultGrowth>(growth, ignoreCase: true) : null,
            Severity = table.Number("severity", 0, 1),
            First = FaultTables.Date(table, "first"),
        };
        table.Finish();
        root.Finish();
        return new(errors.Any() ? null : FaultHistory.Draw(seed, wishes), [.. errors]);
    }
}
