using System.Globalization;
using StrokeWatch.Configuration.Scenarios;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration;

/// <summary>The scenario of a simulation; everything in it has a default.</summary>
internal static class ScenarioFile
{
    /// <summary>Reads a scenario file; all that is wrong with it comes at once.</summary>
    public static ConfigurationResult<FeederScenario> Read(string path)
    {
        var errors = new ConfigurationErrors(path);
        return From(TomlFile.Read(path, errors), errors);
    }

    /// <summary>Reads a scenario's text, naming the file in its errors.</summary>
    public static ConfigurationResult<FeederScenario> Parse(string text, string file)
    {
        var errors = new ConfigurationErrors(file);
        return From(TomlFile.Parse(text, errors), errors);
    }

    private static ConfigurationResult<FeederScenario> From(TomlTable? tree, ConfigurationErrors errors)
    {
        if (tree is null)
        {
            return new(null, [.. errors]);
        }

        var root = new TableReader(tree, errors);
        TableReader feeder = root.TableOrEmpty("feeder"), run = root.TableOrEmpty("run"), machine = root.TableOrEmpty("machine");
        TableReader supply = root.TableOrEmpty("supply"), material = root.TableOrEmpty("material"), sensor = root.TableOrEmpty("sensor");
        var usual = new FeederScenario();
        var (described, modelErrors) = FeederTables.Read(feeder, errors, usual.Feeder.Name, Lender(usual.Feeder));
        var scenario = new FeederScenario
        {
            Name = root.Text("name", "a name in quotes") ?? Path.GetFileNameWithoutExtension(errors.File),
            Feeder = (described ?? usual.Feeder) with { Supply = SupplyPart.Read(feeder) },
            Seed = (ulong)(run.Integer("seed", 0, int.MaxValue) ?? 1),
            DurationSeconds = run.Number("duration_s", 0.05, 1e6, "s") ?? usual.DurationSeconds,
            WarmStart = run.Flag("warm_start") ?? usual.WarmStart,
            Stroke = StrokePart.Bound(machine, "stroke"),
            PeakPull = machine.Number("peak_pull_n", 0.01, 1e7, "N"),
            Machine = MachineTables.Machine(machine, root),
            Supply = MachineTables.Supply(supply, root),
            SupplyChannel = MachineTables.SupplyChannel(root),
            Strike = MachineTables.Strike(root),
            Material = SurroundingsTables.Material(material),
            Neighbours = SurroundingsTables.Neighbours(root),
            Sensor = SurroundingsTables.Sensor(sensor, run, root),
            Sensors = PlaceTables.Read(root),
            Faults = FaultTables.Read(root),
            Recorded = FaultTables.Date(run, "recorded"),
        };
        if (machine.Has("stroke") && machine.Has("peak_pull_n"))
        {
            machine.Refuse("peak_pull_n", "`stroke` and `peak_pull_n` are both given in [machine]; one of the two was expected");
        }

        if (described is not null && scenario.Supply.Kind is { } kind && kind == DriveKind.FullWave != (described.Drive.StrokesPerCycle == 2))
        {
            supply.Refuse("kind", string.Create(
                CultureInfo.InvariantCulture,
                $"`supply.kind` does not go with strokes_per_cycle {described.Drive.StrokesPerCycle} in [feeder.drive]; \"full-wave\" with 2, or another kind with 1, was expected"));
        }

        foreach (var table in new[] { feeder, run, machine, supply, material, sensor, root })
        {
            table.Finish();
        }

        IReadOnlyList<ConfigurationError> all = [.. errors, .. modelErrors];
        return new(all.Count == 0 ? scenario : null, all);
    }

    private static ModelRow Lender(FeederDescription feeder) => new(
        feeder.Name, feeder.Drive.SupplyHz, feeder.Drive.StrokesPerCycle, feeder.Band.Low, feeder.Band.High, feeder.Band.Limit);
}
