using StrokeWatch.Configuration.Scenarios;
using StrokeWatch.Machine.Magnet;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Configuration;

/// <summary>Reads a scenario for the simulation from TOML.</summary>
internal static class ScenarioFile
{
    /// <summary>Reads a file; either a scenario comes back, or every error in it, one line each with file and line.</summary>
    public static ScenarioReading Read(string path)
    {
        string text;
        try
        {
            text = File.ReadAllText(path);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new(null, [$"{path}: the scenario cannot be read ({problem.Message.TrimEnd('.')}); name a TOML file that is there"]);
        }

        return Parse(text, path);
    }

    /// <summary>Reads a text, naming the file in its errors.</summary>
    public static ScenarioReading Parse(string text, string file)
    {
        var errors = new List<string>();
        var node = TomlNode.Parse(text, file, errors);
        if (errors.Count > 0)
        {
            return new(null, errors);
        }

        var root = new TableReader(node, "", file, errors);
        TableReader run = root.Table("run"), machine = root.Table("machine"), supply = root.Table("supply");
        TableReader material = root.Table("material"), sensor = root.Table("sensor");
        var usual = new FeederScenario();
        var scenario = new FeederScenario
        {
            Name = root.Text("name") ?? Path.GetFileNameWithoutExtension(file),
            Feeder = FeederTable.Read(root.Table("feeder")),
            Seed = (ulong)run.Integer("seed", 1, 0, int.MaxValue),
            DurationSeconds = run.Number("duration_s", usual.DurationSeconds, 0.05, 1e6),
            WarmStart = run.Flag("warm_start", true),
            Stroke = machine.Length("stroke"),
            PeakPull = machine.Number("peak_pull_n", 0.01, 1e7),
            Machine = ScenarioTables.Machine(machine, root),
            Supply = ScenarioTables.Supply(supply, root),
            Strike = ScenarioTables.Strike(root),
            Material = ScenarioTables.Material(material),
            Neighbours = ScenarioTables.Neighbours(root),
            Sensor = ScenarioTables.Sensor(sensor, run, root),
        };
        if (scenario.Stroke is not null && scenario.PeakPull is not null)
        {
            machine.Conflict("peak_pull_n", "give \"stroke\" or \"peak_pull_n\", not both");
        }

        if (scenario.Supply.Kind is { } kind && (kind == DriveKind.FullWave) != (scenario.Feeder.Drive.StrokesPerCycle == 2))
        {
            supply.Conflict("kind", "\"kind\" does not go with the drive's \"strokes_per_cycle\": full-wave makes 2, the others 1");
        }

        foreach (var table in new[] { run, machine, supply, material, sensor, root })
        {
            table.Finish();
        }

        errors.Sort((a, b) => LineOf(a).CompareTo(LineOf(b)));
        return errors.Count == 0 ? new(scenario, []) : new(null, errors);

        int LineOf(string error) => int.Parse(error.AsSpan(file.Length + 1, error.IndexOf(':', file.Length + 1) - file.Length - 1));
    }
}
