using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Reports;

/// <summary>The sentences that say what an uncertainty rests on.</summary>
internal static class Assumptions
{
    /// <summary>Said where the sensor was neither calibrated nor its tolerance stated.</summary>
    public const string Sensitivity =
        "the sensor's sensitivity is assumed right within 2 % (no calibration given; common practice, no source): set calibration, calibration_uncertainty_percent or sensitivity_tolerance_percent in [sensor]";

    /// <summary>Gives that sentence for a feeder file with one sensor or several.</summary>
    public static string Of(FeederDescription feeder) => feeder.Sensors.Count == 0 ? Sensitivity : Sensitivity.Replace("[sensor]", "[[sensors]]", StringComparison.Ordinal);
}
