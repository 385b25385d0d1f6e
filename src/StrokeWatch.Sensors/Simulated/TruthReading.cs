namespace StrokeWatch.Sensors.Simulated;

/// <summary>The true motion over one window of whole cycles; lengths in metres, the angle in radians in the tray's x-z plane, the phase in radians ahead of the drive's own.</summary>
internal readonly record struct TruthReading(
    double StartSeconds, double LengthSeconds, double PeakToPeak, double Fundamental, double Angle, double EllipseRatio, double Phase);
