namespace StrokeWatch.Sensors.Decoding;

/// <summary>What a decoder found in the bytes it holds.</summary>
internal enum DecodeState
{
    /// <summary>No whole frame or line: more bytes are needed.</summary>
    None,

    /// <summary>The run holds samples.</summary>
    Samples,

    /// <summary>The sensor described itself; the run holds no samples.</summary>
    Announcement,
}
