using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>The table [sensor] of a feeder file: what is known of the accelerometer on the tray.</summary>
internal static class SensorPart
{
    /// <summary>Reads the sensor's full scale: 0.1 to 10 000 g, either sign; given in m/s².</summary>
    public static double? FullScale(TableReader table) => table.Number("full_scale_g", 0.1, 10_000, "g") * Gravity.Standard;

    /// <summary>Reads the sensor; an empty description where there is no such table.</summary>
    /// <param name="root">The feeder file's top.</param>
    /// <param name="path">The feeder file, beside which a calibration is looked for.</param>
    /// <param name="calibrationErrors">All that is wrong with the calibration file, where one is named.</param>
    public static SensorDescription Read(TableReader root, string path, out IReadOnlyCollection<ConfigurationError> calibrationErrors)
    {
        calibrationErrors = [];
        if (root.Table("sensor") is not { } table)
        {
            return new();
        }

        var sensor = Describe(table, path, out calibrationErrors);
        table.Finish();
        return sensor;
    }

    /// <summary>Reads what is known of a sensor from its table, whose other keys are left to the caller.</summary>
    public static SensorDescription Describe(TableReader table, string path, out IReadOnlyCollection<ConfigurationError> calibrationErrors)
    {
        calibrationErrors = [];
        var sensor = new SensorDescription
        {
            FullScale = FullScale(table),
            SensitivityTolerance = table.Number("sensitivity_tolerance_percent", 0, 50, "percent") / 100,
            CalibrationUncertainty = table.Number("calibration_uncertainty_percent", 0, 50, "percent (k = 2)") / 100,
            CrossAxis = table.Number("cross_axis_percent", 0, 50, "percent") / 100,
            TimingJitterSeconds = table.Number("timing_jitter_us", 0, 10_000, "µs") / 1e6,
            BandwidthHz = table.Number("bandwidth_hz", 1, 1e6, "Hz"),
            BandwidthPoles = table.Integer("bandwidth_poles", 1, 2) ?? 2,
        };
        if (table.Text("calibration", "the path of a calibration file, in quotes,") is { } named)
        {
            if (sensor.CalibrationUncertainty is not null)
            {
                table.Refuse(
                    "calibration_uncertainty_percent",
                    "`calibration_uncertainty_percent` stands beside `calibration`, whose file holds its own; one of the two was expected");
            }

            var errors = new ConfigurationErrors(FeederFile.Beside(path, named));
            sensor = sensor with { Calibration = CalibrationFile.Read(errors.File, errors) };
            calibrationErrors = errors;
        }

        return sensor;
    }
}
