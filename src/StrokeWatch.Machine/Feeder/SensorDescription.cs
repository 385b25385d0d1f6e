namespace StrokeWatch.Machine.Feeder;

/// <summary>What is known of the accelerometer on the tray.</summary>
public sealed record SensorDescription
{
    /// <summary>Gets the full scale in m/s², either sign, if known.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets the half-width of the datasheet's sensitivity tolerance, relative; null where not given.</summary>
    public double? SensitivityTolerance { get; init; }

    /// <summary>Gets the expanded (k = 2) relative uncertainty of a calibration; null where the sensor was not calibrated.</summary>
    public double? CalibrationUncertainty { get; init; }
}
