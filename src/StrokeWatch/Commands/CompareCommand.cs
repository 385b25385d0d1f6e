using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Commands;

/// <summary>The command <c>calibrate compare</c>: the sensor's gain from one stroke that a reference instrument read at the same time.</summary>
internal sealed class CompareCommand
{
    /// <summary>Outside this ratio something else than a sensitivity is wrong: a unit, a peak taken for a peak to peak.</summary>
    private const double MostRatio = 1.5;

    /// <summary>Gets the capture.</summary>
    public required string File { get; init; }

    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the reference's stroke, peak to peak.</summary>
    public required Length Reference { get; init; }

    /// <summary>Gets its expanded uncertainty (k = 2).</summary>
    public required Length ReferenceUncertainty { get; init; }

    /// <summary>Gets the file to write.</summary>
    public required string Target { get; init; }

    /// <summary>Gets the day as the user wrote it, if given.</summary>
    public string? Date { get; init; }

    /// <summary>Gets what the capture does not say.</summary>
    public CaptureOptions Capture { get; init; } = new();

    /// <summary>Runs; 3 where no stroke could be measured from the capture.</summary>
    public int Run(Surroundings surroundings)
    {
        var read = Configuration.FeederFile.Read(FeederFile);
        var day = CalibrationOutcome.Day(Date, surroundings, out var trouble);
        trouble ??= ReferenceUncertainty.CompareTo(Reference) >= 0
            ? $"--reference-uncertainty: {ReferenceUncertainty} is not below the stroke {Reference}; give the reference's expanded uncertainty (k = 2)"
            : null;
        foreach (var error in read.Errors.Select(error => error.ToString()).Concat(trouble is null ? [] : [$"strokewatch calibrate compare: {trouble}"]))
        {
            surroundings.Error.WriteLine(error);
        }

        if (read.Value is not { } feeder || day is not { } date || trouble is not null)
        {
            return CommandLine.Bad;
        }

        if (feeder.Sensors.Count > 0)
        {
            surroundings.Error.WriteLine($"{FeederFile}: lists several sensors; a comparison calibrates one: give a feeder file with [sensor], and choose the sensor's columns with --columns");
            return CommandLine.Bad;
        }

        using var source = CaptureFile.Open(File, Capture);
        var stroke = Replayer.Run(File, source, feeder, new AlarmDelays()).Report.Stroke;
        if (stroke.Stroke is not { } measured)
        {
            surroundings.Error.WriteLine($"{File}: no stroke to compare: {stroke.Reason}; record the feeder running steadily");
            return CommandLine.NoStroke;
        }

        var gain = ComparisonFit.Gain(measured, Reference.Metres);
        if (gain is > MostRatio or < 1 / MostRatio)
        {
            surroundings.Error.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{File}: reads {Length.FromMetres(measured)}, {gain:0.00} times the reference's {Reference}; that is no sensitivity: check the units, and that both are peak to peak"));
            return CommandLine.Bad;
        }

        return Write(date, feeder.Sensor, stroke, measured, gain, surroundings);
    }

    private int Write(DateOnly date, SensorDescription sensor, StrokeSummary stroke, double measured, double gain, Surroundings surroundings)
    {
        var budget = ComparisonFit.Budget(stroke.Budget!, measured, Reference.Metres, ReferenceUncertainty.Metres);
        var before = sensor.Calibration;
        var calibration = new SensorCalibration
        {
            Date = date,
            Method = before is null ? "one-point comparison" : "one-point comparison after a calibration",
            Gain = [.. (before?.Gain ?? [1, 0, 0, 0, 1, 0, 0, 0, 1]).Select(value => gain * value)],
            Bias = before?.Bias ?? [0, 0, 0],
            ExpandedUncertainty = StrokeBudget.CoverageFactor * budget.Combined,
            DegreesOfFreedom = budget.EffectiveDegreesOfFreedom ?? double.PositiveInfinity,
        };
        var writer = new CalibrationWriter(calibration, gravity: null);
        writer.Budget(budget, StrokeBudget.CoverageFactor);
        writer.Table(
            "[comparison]",
            [
                ("file", CalibrationWriter.Quoted(File)),
                ("stroke_mm", CalibrationWriter.Number(1e3 * measured)),
                ("reference_mm", CalibrationWriter.Number(Reference.Millimetres)),
                ("reference_uncertainty_mm", CalibrationWriter.Number(ReferenceUncertainty.Millimetres)),
                ("gain", CalibrationWriter.Number(gain)),
                .. before is null ? Array.Empty<(string, string)>() : [("before", CalibrationWriter.Quoted(before.ToString()))],
            ]);
        return CalibrationOutcome.Write(Target, calibration, budget, writer, surroundings);
    }
}
