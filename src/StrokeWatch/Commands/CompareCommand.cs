using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
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

    /// <summary>Gets the place of the sensor that is calibrated, where the feeder file lists several, as the user wrote it.</summary>
    public string? Place { get; init; }

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

        if (Chosen(feeder, out var placed) is { } wrong)
        {
            surroundings.Error.WriteLine(wrong);
            return CommandLine.Bad;
        }

        // Only the sensor that is calibrated is looked at: the capture need not hold the others.
        var one = placed is null ? feeder : feeder with { Sensors = [placed] };
        using var source = CaptureFile.Open(File, SensorChannels.Wanted(one, Capture));
        var report = Replayer.Run(File, source, one, new AlarmDelays()).Report;
        var own = report.Sensors?.Sensors[0];
        var (stroke, budget, reason) = own is null ? (report.Stroke.Stroke, report.Stroke.Budget, report.Stroke.Reason) : (own.Stroke, own.Budget, own.Reason);
        if (stroke is not { } measured || budget is null)
        {
            surroundings.Error.WriteLine($"{File}: no stroke to compare: {reason}; record the feeder running steadily");
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

        return Write(date, placed, placed?.Sensor ?? feeder.Sensor, budget, measured, gain, surroundings);
    }

    /// <summary>Finds the sensor that is calibrated, none where there is but one; gives one line where the choice is wrong.</summary>
    private string? Chosen(FeederDescription feeder, out PlacedSensor? placed)
    {
        placed = null;
        var places = string.Join(" or ", feeder.Sensors.Select(sensor => SensorPlaces.Name(sensor.Place)));
        if (Place is null)
        {
            return feeder.Sensors.Count == 0 ? null : $"{FeederFile}: lists several sensors; a comparison calibrates one of them: give --place {places}";
        }

        placed = SensorPlaces.TryParse(Place, out var place) ? feeder.Sensors.FirstOrDefault(sensor => sensor.Place == place) : null;
        return placed is not null ? null
            : feeder.Sensors.Count == 0 ? $"strokewatch calibrate compare: --place: {FeederFile} lists no sensors; leave it out"
            : $"strokewatch calibrate compare: --place: '{Place}' is no sensor of {FeederFile}; use {places}";
    }

    private int Write(
        DateOnly date, PlacedSensor? placed, SensorDescription sensor, UncertaintyBudget own, double measured, double gain, Surroundings surroundings)
    {
        var budget = ComparisonFit.Budget(own, measured, Reference.Metres, ReferenceUncertainty.Metres);
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
                .. placed is null ? Array.Empty<(string, string)>() : [("place", CalibrationWriter.Quoted(SensorPlaces.Name(placed.Place)))],
                ("stroke_mm", CalibrationWriter.Number(1e3 * measured)),
                ("reference_mm", CalibrationWriter.Number(Reference.Millimetres)),
                ("reference_uncertainty_mm", CalibrationWriter.Number(ReferenceUncertainty.Millimetres)),
                ("gain", CalibrationWriter.Number(gain)),
                .. before is null ? Array.Empty<(string, string)>() : [("before", CalibrationWriter.Quoted(before.ToString()))],
            ]);
        return CalibrationOutcome.Write(Target, calibration, budget, writer, surroundings, placed?.Place);
    }
}
