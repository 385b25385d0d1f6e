using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Configuration;

/// <summary>The tables that describe a feeder: the whole of a feeder file but [sensor], and [feeder] in a scenario.</summary>
internal static class FeederTables
{
    /// <summary>
    /// Reads them. Where no model is named, a usual feeder, if given, lends what is not said. The feeder is null where anything is wrong; what is wrong with a models
    /// file comes apart, under that file's name.
    /// </summary>
    public static (FeederDescription? Feeder, ConfigurationErrors ModelErrors) Read(
        TableReader reader, ConfigurationErrors errors, string unnamed, ModelRow? usual = null)
    {
        var name = reader.Text("name", "a name in quotes") ?? unnamed;
        var (model, modelErrors) = Model(reader, errors.File);
        var angle = LineAngle(reader);
        var drive = DrivePart.Read(reader, model ?? usual, errors);
        var band = StrokePart.Read(reader, model ?? usual, errors, model is null ? "the usual feeder" : "the model");
        var springs = SpringsPart.Read(reader);
        var masses = Masses(reader);
        var gap = Gap(reader);
        if (drive is not null && band is not null)
        {
            return (
                new()
                {
                    Name = name,
                    Model = model?.Name,
                    Drive = drive,
                    Band = band,
                    LineAngleDegrees = angle,
                    Springs = springs,
                    Masses = masses,
                    RestGapMetres = gap,
                },
                modelErrors);
        }

        if (errors.Count == 0 && modelErrors.Count == 0)
        {
            // A model row may lack what the feeder file leaves to it.
            reader.Refuse("model", $"model `{model?.Name}` gives no {(band is null ? "stroke band" : "drive")}; give it in this file");
        }

        return (null, modelErrors);
    }

    private static (ModelRow? Row, ConfigurationErrors Errors) Model(TableReader reader, string path)
    {
        var wanted = reader.Text("model", "the name of a row of the models file, in quotes,");
        var file = reader.Text("models", "the path of a models file, in quotes,");
        var errors = new ConfigurationErrors(file is null ? "models.toml" : FeederFile.Beside(path, file));
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

    private static double? LineAngle(TableReader root)
    {
        var table = root.Table("mounting");
        var angle = table?.NumberOr("line_angle_deg", "auto", -90, 90, out _);
        table?.Finish();
        return angle;
    }

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
