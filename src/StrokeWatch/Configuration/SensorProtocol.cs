namespace StrokeWatch.Configuration;

/// <summary>What comes over the sensor's serial port.</summary>
internal enum SensorProtocol
{
    /// <summary>StrokeWatch's own frames, which say their rate, axes and scale themselves.</summary>
    Frames,

    /// <summary>Plain text lines, one sample a line, as a microcontroller prints them.</summary>
    Lines,
}
