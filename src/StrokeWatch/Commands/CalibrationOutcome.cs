using System.Globalization;
using StrokeWatch.Configuration;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Calibration;

namespace StrokeWatch.Commands;

/// <summary>What the two ways of calibrating share: the day, the file, the words.</summary>
internal static class CalibrationOutcome
{
    /// <summary>Gives the day: the one given, or today by the surroundings' clock; null and one line where the text is no day.</summary>
    public static DateOnly? Day(string? given, Surroundings surroundings, out string? error)
    {
        error = null;
        if (given is null)
        {
            return DateOnly.FromDateTime(surroundings.Time.GetLocalNow().DateTime);
        }

        if (CalibrationFile.TryParseDate(given, out var day))
        {
            return day;
        }

        error = $"--date: '{given}' is no day; write it as in --date 2026-03-14";
        return null;
    }

    /// <summary>Writes the file and tells what is in it and what to do with it.</summary>
    public static int Write(string path, SensorCalibration calibration, UncertaintyBudget budget, CalibrationWriter writer, Surroundings surroundings, SensorPlace? place = null)
    {
        try
        {
            File.WriteAllText(path, writer.ToString());
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            surroundings.Error.WriteLine($"{path}: the calibration cannot be written ({trouble.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name a file in a folder that is there");
            return CommandLine.Bad;
        }

        void Line(FormattableString text) => surroundings.Output.WriteLine(text.ToString(CultureInfo.InvariantCulture));
        Line($"{path}: {calibration}");
        for (var i = 0; i < 3; i++)
        {
            Line($"  {"xyz"[i]}          reads {calibration.Gain[3 * i]:0.00000} x {calibration.Gain[3 * i + 1]:+0.00000;-0.00000} y {calibration.Gain[3 * i + 2]:+0.00000;-0.00000} z {calibration.Bias[i]:+0.0000;-0.0000} m/s²");
        }

        foreach (var part in budget.Components)
        {
            Line($"  {part.Name,-18}{100 * part.Contribution,9:0.0000} %  {part.Basis}");
        }

        Line($"  uncertainty {100 * calibration.ExpandedUncertainty:0.000} % (k = {StrokeBudget.CoverageFactor:0}), covers {100 * budget.Coverage(StrokeBudget.CoverageFactor):0.0} %");
        Line($"  next       write  calibration = {CalibrationWriter.Quoted(Path.GetFileName(path))}  under {(place is { } at ? $"[[sensors]] with place = {CalibrationWriter.Quoted(SensorPlaces.Name(at))}" : "[sensor]")} in the feeder file beside it");
        return CommandLine.Well;
    }
}
