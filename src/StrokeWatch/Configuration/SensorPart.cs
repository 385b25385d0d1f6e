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
    public static SensorDescription Read(TableReader root)
    {
        if (root.Table("sensor") is not { } table)
        {
            return new();
        }

        var sensor = new SensorDescription
        {
            FullScale = FullScale(table),
            SensitivityTolerance = table.Number("sensitivity_tolerance_percent", 0, 50, "percent") / 100,
            CalibrationUncertainty = table.Number("calibration_uncertainty_percent", 0, 50, "percent (k = 2)") / 100,
        };
        table.Finish();
        return sensor;
    }
}
