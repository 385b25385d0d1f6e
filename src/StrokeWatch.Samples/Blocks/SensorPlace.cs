namespace StrokeWatch.Samples.Blocks;

/// <summary>Where one of several sensors sits: somewhere on the tray, or on the body. Front is where the material leaves the tray.</summary>
public enum SensorPlace : byte
{
    /// <summary>On the tray, in the middle of its front.</summary>
    Front,

    /// <summary>On the tray, in the middle of its rear.</summary>
    Rear,

    /// <summary>On the tray, in the middle of its left side, seen in the direction of conveying.</summary>
    Left,

    /// <summary>On the tray, in the middle of its right side.</summary>
    Right,

    /// <summary>On the tray's front left corner.</summary>
    FrontLeft,

    /// <summary>On the tray's front right corner.</summary>
    FrontRight,

    /// <summary>On the tray's rear left corner.</summary>
    RearLeft,

    /// <summary>On the tray's rear right corner.</summary>
    RearRight,

    /// <summary>On the body, which swings against the tray.</summary>
    Body,
}
