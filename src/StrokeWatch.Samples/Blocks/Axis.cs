namespace StrokeWatch.Samples.Blocks;

/// <summary>An axis of the sensor.</summary>
public enum Axis
{
    /// <summary>Along the tray, in the direction of conveying.</summary>
    X,

    /// <summary>Across the tray.</summary>
    Y,

    /// <summary>Square to the tray, upwards.</summary>
    Z,
}
