namespace StrokeWatch.Samples.Wav;

/// <summary>How a WAV file writes a sample.</summary>
internal enum WavEncoding
{
    /// <summary>16-bit signed integers.</summary>
    Int16,

    /// <summary>24-bit signed integers in three bytes.</summary>
    Int24,

    /// <summary>32-bit signed integers.</summary>
    Int32,

    /// <summary>32-bit IEEE 754 floats.</summary>
    Float32,

    /// <summary>64-bit IEEE 754 floats.</summary>
    Float64,
}
