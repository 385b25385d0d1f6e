using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Pipeline;

/// <summary>What a listener may ask a measurement that has begun, beside what it hears: of one source, or of several put together.</summary>
internal interface IMeasurement
{
    /// <summary>Gets the meter's settings; null before the first beginning.</summary>
    MeterSettings? Settings { get; }

    /// <summary>Gets what unsteady sampling did; null where the feeder file states it, or no window counts.</summary>
    JitterReading? Jitter { get; }

    /// <summary>Gets the most that a cut which cannot be seen takes off the stroke, as a share of it; 0 where the range is stated, or no window counts.</summary>
    double HiddenCut { get; }

    /// <summary>Gets where gravity and motion stood since this was last asked, or since the last beginning, and begins anew; null before it, and with several sensors.</summary>
    OrientationReading? TakeOrientation();
}
