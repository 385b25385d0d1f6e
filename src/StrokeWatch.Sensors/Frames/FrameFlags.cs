namespace StrokeWatch.Sensors.Frames;

/// <summary>What the device knows of a frame's samples beside their values.</summary>
[Flags]
internal enum FrameFlags : byte
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>A sample of the frame stood at the rail somewhere before the device's filter; version 2 has a byte of its own for it.</summary>
    Clipped = 1,

    /// <summary>The device itself lost samples directly before this frame.</summary>
    Overflow = 2,
}
