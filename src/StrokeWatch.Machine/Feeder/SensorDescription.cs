using StrokeWatch.Samples.Calibration;

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

    /// <summary>Gets the calibration that corrects the samples and carries its own uncertainty; null where there is none.</summary>
    public SensorCalibration? Calibration { get; init; }

    /// <summary>Gets the half-width of the datasheet's cross-axis sensitivity, relative; null where not given.</summary>
    public double? CrossAxis { get; init; }

    /// <summary>Gets the standard deviation of the sampling instants in seconds; null where not given.</summary>
    public double? TimingJitterSeconds { get; init; }

    /// <summary>Gets the corner in Hz of the sensor's own low-pass, where it lets 71 % through; null where not given.</summary>
    public double? BandwidthHz { get; init; }

    /// <summary>Gets the poles of that low-pass, 1 or 2.</summary>
    public int BandwidthPoles { get; init; } = 2;
}
