using System.Globalization;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;

namespace StrokeWatch.Configuration;

/// <summary>The file that <c>strokewatch calibrate</c> writes and a feeder file names; a person may read and write it too.</summary>
internal static class CalibrationFile
{
    /// <summary>The form of a date.</summary>
    public const string DateForm = "yyyy-MM-dd";

    private const double MostGain = 100;
    private const double MostBias = 10_000;

    /// <summary>Reads a calibration; null where anything is wrong, and the errors then say all of it.</summary>
    public static SensorCalibration? Read(string path, ConfigurationErrors errors)
    {
        if (TomlFile.Read(path, errors) is not { } root)
        {
            return null;
        }

        var reader = new TableReader(root, errors);
        reader.Require("date", "the day of the calibration such as \"2026-03-14\"");
        reader.Require("method", "how the sensor was calibrated, in words,");
        reader.Require("correction", "a table [correction] with gain_x, gain_y, gain_z and bias_m_s2");
        reader.Require("uncertainty", "a table [uncertainty] with expanded_percent");
        var date = Date(reader);
        var method = reader.Text("method", "how the sensor was calibrated, in quotes,");
        _ = reader.Number("gravity_m_s2", 9, 11, "m/s²");
        var correction = Correction(reader.Table("correction"));
        var uncertainty = Uncertainty(reader.Table("uncertainty"));
        Record(reader);
        reader.Finish();
        return errors.Count > 0 || date is null || method is null || correction is not var (gain, bias) || uncertainty is not var (expanded, freedom)
            ? null
            : new()
            {
                Date = date.Value,
                Method = method,
                Gain = gain,
                Bias = bias,
                ExpandedUncertainty = expanded,
                DegreesOfFreedom = freedom,
            };
    }

    /// <summary>Reads a day; false where the text is none.</summary>
    public static bool TryParseDate(string text, out DateOnly date) =>
        DateOnly.TryParseExact(text, DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out date);

    private static DateOnly? Date(TableReader reader)
    {
        const string Expected = "a day in quotes such as \"2026-03-14\"";
        if (reader.Text("date", Expected) is not { } text)
        {
            return null;
        }

        if (TryParseDate(text, out var date))
        {
            return date;
        }

        reader.Refuse("date", $"`date` is \"{text}\"; {Expected} was expected");
        return null;
    }

    private static (double[] Gain, double[] Bias)? Correction(TableReader? table)
    {
        if (table is null)
        {
            return null;
        }

        string[] keys = ["gain_x", "gain_y", "gain_z"];
        foreach (var key in keys)
        {
            table.Require(key, "a list of three numbers, what the axis reads of each unit along x, y and z,");
        }

        table.Require("bias_m_s2", "a list of three numbers, what x, y and z read at no acceleration, in m/s²,");
        var rows = keys.Select(key => table.Numbers(key, -MostGain, MostGain, count: 3)).ToList();
        var bias = Three(table, "bias_m_s2");
        table.Finish();
        if (rows.Contains(null) || bias is null)
        {
            return null;
        }

        double[] gain = [.. rows.SelectMany(row => row!)];
        if (SquareMatrix.Inverse(gain) is null)
        {
            table.Refuse("gain_x", "gain_x, gain_y and gain_z have no inverse; three independent rows were expected, near [1, 0, 0], [0, 1, 0] and [0, 0, 1]");
            return null;
        }

        return (gain, [.. bias]);
    }

    private static IReadOnlyList<double>? Three(TableReader table, string key) => table.Numbers(key, -MostBias, MostBias, "m/s²", count: 3);

    private static (double Expanded, double Freedom)? Uncertainty(TableReader? table)
    {
        if (table is null)
        {
            return null;
        }

        table.Require("expanded_percent", "the expanded uncertainty (k = 2) in percent");
        var expanded = table.Number("expanded_percent", 0, 50, "percent (k = 2)");
        var freedom = table.Number("degrees_of_freedom", 1, 1e9) ?? double.PositiveInfinity;
        _ = table.Rows("contribution", "tables [[uncertainty.contribution]] with name and percent", part => (
            part.Text("name", "a name in quotes"),
            part.Number("percent", 0, 100, "percent (k = 1)"),
            part.Number("degrees_of_freedom", 1e-3, 1e9),
            part.Text("basis", "how it is known, in quotes,")));
        table.Finish();
        return expanded is { } percent ? (percent / 100, freedom) : null;
    }

    /// <summary>Reads what the file keeps only for people, so that a slip of the pen in it is said all the same.</summary>
    private static void Record(TableReader root)
    {
        if (root.Table("residuals") is { } residuals)
        {
            _ = residuals.Number("deviation_m_s2", 0, MostBias, "m/s²");
            _ = residuals.Number("largest_m_s2", 0, MostBias, "m/s²");
            residuals.Finish();
        }

        _ = root.Rows("position", "tables [[position]]", position => (
            position.Choice("name", "x+", "x-", "y+", "y-", "z+", "z-"),
            position.Text("file", "the capture's name, in quotes,"),
            position.Integer("samples", 1, int.MaxValue),
            Three(position, "mean_m_s2"),
            Three(position, "deviation_m_s2"),
            Three(position, "residual_m_s2")));
        if (root.Table("comparison") is { } comparison)
        {
            _ = comparison.Text("file", "the capture's name, in quotes,");
            _ = comparison.Choice("place", [.. SensorPlaces.Names]);
            _ = comparison.Number("stroke_mm", 0, 1000, "mm");
            _ = comparison.Number("reference_mm", 0, 1000, "mm");
            _ = comparison.Number("reference_uncertainty_mm", 0, 1000, "mm (k = 2)");
            _ = comparison.Number("gain", 1e-3, MostGain);
            _ = comparison.Text("before", "the calibration in force before, in quotes,");
            comparison.Finish();
        }
    }
}
