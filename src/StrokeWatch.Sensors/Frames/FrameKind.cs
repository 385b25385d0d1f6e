namespace StrokeWatch.Sensors.Frames;

/// <summary>The kinds of frame: version of the protocol in the high four bits, kind in the low four.</summary>
internal enum FrameKind : byte
{
    /// <summary>A block of samples, version 1.</summary>
    Samples = 0x11,

    /// <summary>The sensor's announcement of itself, version 1.</summary>
    Announcement = 0x12,

    /// <summary>A block of samples of several sensors on one clock, version 2.</summary>
    SeveralSamples = 0x21,

    /// <summary>The announcement of a device with several sensors, version 2.</summary>
    SeveralAnnouncement = 0x22,

    /// <summary>A block of samples of one or several sensors and, with each, the supply's voltage, version 3.</summary>
    SupplySamples = 0x31,

    /// <summary>The announcement of a device that takes the supply's voltage too, version 3.</summary>
    SupplyAnnouncement = 0x32,
}
