namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The side of the tuning curve on which the feeder runs.</summary>
public enum TuningSide
{
    /// <summary>The natural frequency equals the drive's within its uncertainty.</summary>
    Unknown,

    /// <summary>The natural frequency lies above the drive's: more rear stiffness lowers the stroke.</summary>
    Normal,

    /// <summary>The natural frequency lies below the drive's: more rear stiffness raises the stroke.</summary>
    Reverse,
}
