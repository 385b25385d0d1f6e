using System.Globalization;
using System.Text;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Samples.Calibration;

namespace StrokeWatch.Configuration;

/// <summary>Writes a calibration as <see cref="CalibrationFile"/> reads it, with all that a later reader may ask: residuals, budget, what it was made of.</summary>
internal sealed class CalibrationWriter
{
    private readonly StringBuilder text = new();

    /// <summary>Begins with what every calibration has.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <param name="gravity">Local gravity in m/s² where it was made use of.</param>
    public CalibrationWriter(SensorCalibration calibration, double? gravity)
    {
        Line("# A sensor's calibration, written by strokewatch calibrate: the sensor reads m = K a + b of a true acceleration a.");
        Line("# A feeder file takes it up with  calibration = \"THIS FILE\"  in its table [sensor].");
        Line($"date = {Quoted(calibration.Date.ToString(CalibrationFile.DateForm, CultureInfo.InvariantCulture))}");
        Line($"method = {Quoted(calibration.Method)}");
        if (gravity is { } local)
        {
            Line($"gravity_m_s2 = {Number(local)}");
        }

        Line("");
        Line("[correction]                        # K, a row an axis: what it reads of each unit along x, y and z; and b");
        Line($"gain_x = {List(calibration.Gain.Take(3))}");
        Line($"gain_y = {List(calibration.Gain.Skip(3).Take(3))}");
        Line($"gain_z = {List(calibration.Gain.Skip(6))}");
        Line($"bias_m_s2 = {List(calibration.Bias)}");
    }

    /// <summary>Adds the budget; percents are of an acceleration along any direction.</summary>
    public void Budget(UncertaintyBudget budget, double coverageFactor)
    {
        Line("");
        Line("[uncertainty]                       # relative, of an acceleration along any direction");
        Line($"expanded_percent = {Number(100 * coverageFactor * budget.Combined)}   # k = {Number(coverageFactor)}");
        Freedom(budget.EffectiveDegreesOfFreedom ?? double.PositiveInfinity);
        foreach (var part in budget.Components)
        {
            Line("");
            Line("[[uncertainty.contribution]]        # k = 1");
            Line($"name = {Quoted(part.Name)}");
            Line($"percent = {Number(100 * part.Contribution)}");
            Freedom(part.DegreesOfFreedom);
            Line($"basis = {Quoted(part.Basis)}");
        }
    }

    /// <summary>Adds a table, or one of a list of tables where the name has double brackets.</summary>
    public void Table(string title, params (string Key, string Value)[] rows)
    {
        Line("");
        Line(title);
        foreach (var (key, value) in rows)
        {
            Line($"{key} = {value}");
        }
    }

    /// <summary>Gives the whole text.</summary>
    public override string ToString() => text.ToString();

    /// <summary>Writes a number plainly, without exponent.</summary>
    public static string Number(double value) => value.ToString("0.0##########", CultureInfo.InvariantCulture);

    /// <summary>Writes a list of numbers.</summary>
    public static string List(IEnumerable<double> values) => $"[{string.Join(", ", values.Select(Number))}]";

    /// <summary>Writes text in quotes, as TOML has it.</summary>
    public static string Quoted(string value)
    {
        var quoted = new StringBuilder("\"");
        foreach (var letter in value)
        {
            _ = letter switch
            {
                '"' or '\\' => quoted.Append('\\').Append(letter),
                < ' ' or '\u007f' => quoted.Append(CultureInfo.InvariantCulture, $"\\u{(int)letter:x4}"),
                _ => quoted.Append(letter),
            };
        }

        return quoted.Append('"').ToString();
    }

    private void Freedom(double degrees)
    {
        // Beyond this many they change nothing, and a file holds no infinity that every reader takes.
        if (degrees < 1e6)
        {
            Line($"degrees_of_freedom = {Number(degrees)}");
        }
    }

    private void Line(string line) => text.Append(line).Append('\n');
}
