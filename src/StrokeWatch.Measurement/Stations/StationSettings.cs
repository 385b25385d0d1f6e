using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stations;

/// <summary>One of several sensors, as the meter must know it.</summary>
/// <param name="Place">Where it sits; no other sensor sits there.</param>
/// <param name="FirstChannel">Its first channel, from 0.</param>
/// <param name="Channels">Its channels, 1 to 3, side by side.</param>
/// <param name="FullScale">Its full scale in m/s², either sign; null where unknown.</param>
/// <param name="Contributions">What contributes to the uncertainty of its stroke and cannot be told by the signal.</param>
public sealed record StationSettings(SensorPlace Place, int FirstChannel, int Channels, double? FullScale, StrokeContributions Contributions)
{
    /// <summary>Gives the mark of a sample at which the sensor of an index (from 0, in the order of the settings) stands at its rail.</summary>
    public static SampleMarks ClippedMark(int index) => (SampleMarks)((int)SampleMarks.FirstSensorClipped << index);
}
