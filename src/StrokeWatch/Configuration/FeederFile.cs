using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>The feeder file; only [drive] and [stroke], or a model, are needed in it.</summary>
internal static class FeederFile
{
    /// <summary>Reads a feeder file; all that is wrong with it comes at once.</summary>
    public static ConfigurationResult<FeederDescription> Read(string path)
    {
        var errors = new ConfigurationErrors(path);
        if (TomlFile.Read(path, errors) is not { } root)
        {
            return new(null, [.. errors]);
        }

        if (root.Entries.ContainsKey("trial") && !root.Entries.ContainsKey("drive") && !root.Entries.ContainsKey("model"))
        {
            errors.Add(0, "is a file of trials, not a feeder file; a file with [drive] and [stroke], or a model, was expected");
            return new(null, [.. errors]);
        }

        var reader = new TableReader(root, errors);
        var (feeder, modelErrors) = FeederTables.Read(reader, errors, Path.GetFileName(path).Split('.')[0]);
        var sensor = SensorPart.Read(reader, path, out var calibrationErrors);
        var sensors = SensorsPart.Read(reader, path, out var calibrationsErrors);
        var supply = SupplyPart.Read(reader);
        reader.Finish();
        IReadOnlyList<ConfigurationError> all = [.. errors, .. modelErrors, .. calibrationErrors, .. calibrationsErrors];
        return all.Count > 0 || feeder is null ? new(null, all) : new(feeder with { Sensor = sensor, Sensors = sensors, Supply = supply }, []);
    }

    /// <summary>Gives a path that a file names: relative to that file's own folder.</summary>
    public static string Beside(string file, string named) => Path.Combine(Path.GetDirectoryName(file) ?? "", named);
}
