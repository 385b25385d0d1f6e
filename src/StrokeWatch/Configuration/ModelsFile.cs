using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration;

/// <summary>The models file: one table a feeder class; one of our own is built into the program.</summary>
internal static class ModelsFile
{
    private const string Resource = "models.toml";

    /// <summary>Reads a models file of the user's.</summary>
    public static IReadOnlyDictionary<string, ModelRow> Read(string path, ConfigurationErrors errors) =>
        Rows(TomlFile.Read(path, errors), errors);

    /// <summary>Reads the models that are built into the program.</summary>
    public static IReadOnlyDictionary<string, ModelRow> BuiltIn(ConfigurationErrors errors)
    {
        using var stream = typeof(ModelsFile).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException("The program was built without its models.toml.");
        using var reader = new StreamReader(stream);
        return Rows(TomlFile.Parse(reader.ReadToEnd(), errors), errors);
    }

    private static Dictionary<string, ModelRow> Rows(TomlTable? root, ConfigurationErrors errors)
    {
        var rows = new Dictionary<string, ModelRow>(StringComparer.Ordinal);
        if (root is null)
        {
            return rows;
        }

        foreach (var (name, table) in new TableReader(root, errors).AllTables())
        {
            rows[name] = new ModelRow(
                name,
                DrivePart.Supply(table),
                DrivePart.Strokes(table),
                StrokePart.Bound(table, "low"),
                StrokePart.Bound(table, "high"),
                StrokePart.Bound(table, "limit"));
            StrokePart.CheckOrder(table, rows[name].Low, rows[name].High, rows[name].Limit);
            table.Finish();
        }

        return rows;
    }
}
