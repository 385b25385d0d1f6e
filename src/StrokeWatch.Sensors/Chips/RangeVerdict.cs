namespace StrokeWatch.Sensors.Chips;

/// <summary>Whether a sensor's range suits a feeder.</summary>
public enum RangeVerdict
{
    /// <summary>Full scale is at least twice the expected peak.</summary>
    Suits,

    /// <summary>It holds the expected peak, but a strike or strong harmonics would clip.</summary>
    Narrow,

    /// <summary>The expected peak itself is beyond it.</summary>
    Clips,
}
