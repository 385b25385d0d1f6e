namespace StrokeWatch.Sensors.Frames;

/// <summary>How a value is written in a frame, always least significant byte first.</summary>
internal enum SampleFormat : byte
{
    /// <summary>Two's complement, two bytes.</summary>
    Int16 = 1,

    /// <summary>Two's complement, three bytes.</summary>
    Int24 = 2,

    /// <summary>IEEE 754 binary32, four bytes.</summary>
    Float32 = 3,
}
