using StrokeWatch.Machine.Feeder;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Reports.Records;

/// <summary>The section on how the sensors in use are calibrated.</summary>
internal static class CalibrationPart
{
    /// <summary>Makes the section.</summary>
    public static RecordSection Make(RecordInput input)
    {
        var feeder = input.Feeder;
        return new("Calibration in use", feeder.Sensors.Count == 0
            ? [.. Of(feeder.Sensor, null)]
            : [.. feeder.Sensors.SelectMany(sensor => Of(sensor.Sensor, SensorPlaces.Name(sensor.Place)))]);
    }

    private static IEnumerable<RecordBlock> Of(SensorDescription sensor, string? place)
    {
        if (place is not null)
        {
            yield return new RecordText($"Sensor {place}", RecordTextKind.Heading);
        }

        var facts = new List<(string Name, string Value)>();
        if (sensor.Calibration is { } calibration)
        {
            facts.Add(("Calibrated", $"{RecordDates.Short(new(calibration.Date, TimeOnly.MinValue, TimeSpan.Zero))}, {calibration.Method}"));
            facts.Add(("Uncertainty", $"{Figure.Of(100 * calibration.ExpandedUncertainty, 3)} % of an acceleration in any direction, k = 2"));
            facts.Add(("Cross-axis", $"an axis hears at most {Figure.Of(100 * calibration.LargestCrossGain, 2)} % of another, and is corrected for it"));
        }
        else if (sensor.CalibrationUncertainty is { } stated)
        {
            facts.Add(("Calibrated", $"stated in the feeder file: {Figure.Of(100 * stated, 3)} % (k = 2); no calibration file, so neither date nor method are known"));
        }
        else
        {
            facts.Add(("Calibrated", sensor.SensitivityTolerance is { } tolerance
                ? $"no; the datasheet's tolerance of ± {Figure.Of(100 * tolerance, 2)} % is counted in the uncertainty"
                : "no; the sensitivity is assumed right within 2 % (common practice, no source), and that is counted in the uncertainty"));
        }

        facts.Add(("Full scale", sensor.FullScale is { } scale ? $"± {Figure.Of(scale / StrokeWatch.Samples.Quantities.Gravity.Standard, 1)} g" : "not stated in the feeder file"));
        yield return new RecordFacts(facts);
    }
}
