namespace StrokeWatch.Samples.Blocks;

/// <summary>What a source knows of a single sample beside its value.</summary>
[Flags]
public enum SampleMarks : byte
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>At least one axis stands at the sensor's rail.</summary>
    Clipped = 1,
}
