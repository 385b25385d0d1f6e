using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The true steady motion of the place where the sensor sits.</summary>
/// <param name="PeakToPeak">Median over windows of the whole periodic waveform along the line of action.</param>
/// <param name="Fundamental">Median of the part at the drive frequency alone, peak to peak.</param>
/// <param name="Lowest">Smallest window.</param>
/// <param name="Highest">Largest window.</param>
/// <param name="LineAngleDegrees">Line of action above the sensor's x axis in its x-z plane.</param>
/// <param name="EllipseRatio">Minor over major axis of the path at the drive frequency.</param>
/// <param name="Windows">Number of windows of about half a second.</param>
public sealed record TrueStroke(
    Length PeakToPeak, Length Fundamental, Length Lowest, Length Highest, double LineAngleDegrees, double EllipseRatio, int Windows);
