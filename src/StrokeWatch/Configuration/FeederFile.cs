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
        var root = TomlFile.Read(path, errors);
        if (root is null)
        {
            return new(null, [.. errors]);
        }

        var reader = new TableReader(root, errors);
        var name = reader.Text("name", "a name in quotes") ?? Path.GetFileName(path).Split('.')[0];
        var (model, modelErrors) = Model(reader, path);
        var mounting = reader.Table("mounting");
        var angle = mounting?.NumberOr("line_angle_deg", "auto", -90, 90, out _);
        mounting?.Finish();
        var drive = DrivePart.Read(reader, model, errors);
        var band = StrokePart.Read(reader, model, errors);
        var sensor = SensorPart.Read(reader);
        var springs = SpringsPart.Read(reader);
        var masses = Masses(reader);
        var gap = Gap(reader);
        reader.Finish();
        IReadOnlyList<ConfigurationError> all = [.. errors, .. modelErrors];
        if (all.Count > 0)
        {
            return new(null, all);
        }

        if (drive is null || band is null)
        {
            // A model row may lack what the feeder file leaves to it.
            errors.Add(reader.LineOf("model"), $"model `{model?.Name}` gives no {(band is null ? "stroke band" : "drive")}; give it in this file");
            return new(null, [.. errors]);
        }

        return new(
            new()
            {
                Name = name,
                Model = model?.Name,
                Drive = drive,
                Band = band,
                LineAngleDegrees = angle,
                Sensor = sensor,
                Springs = springs,
                Masses = masses,
                RestGapMetres = gap,
            },
            []);
    }

    private static (ModelRow? Row, ConfigurationErrors Errors) Model(TableReader reader, string path)
    {
        var wanted = reader.Text("model", "the name of a row of the models file, in quotes,");
        var file = reader.Text("models", "the path of a models file, in quotes,");
        var errors = new ConfigurationErrors(file is null ? "models.toml" : Beside(path, file));
        if (wanted is null && file is null)
        {
            return (null, errors);
        }

        var rows = file is null ? ModelsFile.BuiltIn(errors) : ModelsFile.Read(errors.File, errors);
        if (wanted is null)
        {
            return (null, errors);
        }

        if (!rows.TryGetValue(wanted, out var row) && errors.Count == 0)
        {
            reader.Refuse("model", rows.Count == 0
                ? $"unknown model `{wanted}`; {errors.File} holds no models"
                : $"unknown model `{wanted}`; did you mean `{EditDistance.Nearest(wanted, rows.Keys)}`? Known models: {string.Join(", ", rows.Keys)}");
        }

        return (row, errors);
    }

    /// <summary>Gives a path that a file names: relative to that file's own folder.</summary>
    public static string Beside(string file, string named) => Path.Combine(Path.GetDirectoryName(file) ?? "", named);

    private static MassDescription? Masses(TableReader root)
    {
        if (root.Table("masses") is not { } table)
        {
            return null;
        }

        var tray = table.Number("tray_kg", 0.01, 100_000, "kg");
        var body = table.Number("body_kg", 0.01, 100_000, "kg");
        table.Require("tray_kg", "the mass of the tray with its armature in kg");
        table.Require("body_kg", "the mass of the body with its magnet in kg");
        table.Finish();
        return tray is { } upper && body is { } lower ? new(upper, lower) : null;
    }

    private static double? Gap(TableReader root)
    {
        if (root.Table("air_gap") is not { } table)
        {
            return null;
        }

        var gap = table.Number("rest_mm", 0.01, 100, "mm");
        table.Require("rest_mm", "the gap from armature to core at rest in mm");
        table.Finish();
        return gap / 1e3;
    }
}
