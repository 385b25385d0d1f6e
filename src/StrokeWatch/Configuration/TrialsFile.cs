using System.Globalization;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Configuration;

/// <summary>The file of tuning trials: [[trial]] for each rear stack that was tried, in order of time.</summary>
internal static class TrialsFile
{
    private const string Expected = "tables [[trial]] with rear and stroke (or capture)";

    /// <summary>Reads the trials of a feeder; all that is wrong with them comes at once.</summary>
    public static ConfigurationResult<IReadOnlyList<TrialEntry>> Read(string path, FeederDescription feeder)
    {
        var errors = new ConfigurationErrors(path);
        if (TomlFile.Read(path, errors) is not { } tree)
        {
            return new(null, [.. errors]);
        }

        if (!tree.Entries.ContainsKey("trial") && (tree.Entries.ContainsKey("drive") || tree.Entries.ContainsKey("springs") || tree.Entries.ContainsKey("model")))
        {
            errors.Add(0, $"is a feeder file, not a file of trials; {Expected} were expected");
            return new(null, [.. errors]);
        }

        var root = new TableReader(tree, errors);
        root.Require("trial", Expected);
        var rows = root.Rows("trial", Expected, row => Entry(row, path, feeder), least: 1);
        root.Finish();
        return errors.Count > 0 || rows is null || rows.Contains(null) ? new(null, [.. errors]) : new([.. rows.OfType<TrialEntry>()], []);
    }

    private static TrialEntry? Entry(TableReader row, string path, FeederDescription feeder)
    {
        row.Require("rear", "the rear stack such as [ { thickness_mm = 4.0, count = 5 } ]");
        var rear = SpringsPart.Layers(row, "rear");
        var stroke = StrokePart.Bound(row, "stroke");
        var capture = row.Text("capture", "the path of a capture, in quotes,");
        var spread = StrokePart.Bound(row, "stroke_uncertainty");
        var natural = row.Number("natural_frequency_hz", 5, 1000, "Hz");
        var naturalSpread = row.Number("natural_frequency_uncertainty_hz", 1e-6, 100, "Hz (k = 2)");
        var damping = row.Number("damping_ratio", 1e-4, 0.5);
        var voltage = row.Number("voltage_ratio", 0.3, 1.2, "(1 is full voltage)");
        var change = row.Number("tray_mass_change_kg", -0.9 * (feeder.Masses?.TrayKilograms ?? 1e5), 2 * (feeder.Masses?.TrayKilograms ?? 1e5), "kg");
        _ = row.Text("note", "words in quotes");
        if (row.Has("stroke") == row.Has("capture"))
        {
            row.Refuse(row.Has("stroke") ? "capture" : "rear", row.Has("stroke")
                ? "`trial` has both stroke and capture; one of them was expected"
                : "`trial` has neither stroke nor capture; stroke = \"1.50 mm\" or capture = \"file.csv\" was expected");
            return null;
        }

        if (rear is not null && feeder.Springs?.MaxRearLeaves is { } most && rear.Sum(layer => layer.Count) > most)
        {
            row.Refuse("rear", string.Create(CultureInfo.InvariantCulture, $"`trial.rear` holds {rear.Sum(layer => layer.Count)} leaves; at most {most} were expected (springs.max_rear_leaves of the feeder file)"));
            return null;
        }

        if (rear is null || (stroke is null && capture is null))
        {
            return null;
        }

        var trial = new TuningTrial
        {
            Rear = Stacks.Tidy(rear),
            StrokeMetres = stroke?.Metres,
            NaturalHz = natural,
            NaturalSpreadHz = naturalSpread / 2,
            DampingRatio = damping,
            VoltageRatio = voltage ?? 1,
            VoltageRead = voltage is not null,
            TrayChangeKilograms = change ?? 0,
        };
        return new(
            row.Line,
            stroke is { } length && spread is { } uncertainty ? trial with { StrokeSpread = Math.Min(0.2, uncertainty.Metres / length.Metres / 2) } : trial,
            capture is null ? null : FeederFile.Beside(path, capture));
    }
}
