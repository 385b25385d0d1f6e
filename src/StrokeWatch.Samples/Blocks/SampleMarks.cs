namespace StrokeWatch.Samples.Blocks;

/// <summary>What a source knows of a single sample beside its value.</summary>
[Flags]
public enum SampleMarks : ushort
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>At least one axis stands at the sensor's rail.</summary>
    Clipped = 1,

    /// <summary>Of several sensors the first one, by channels, is at its rail; each further one has the next higher bit, up to fifteen of them.</summary>
    FirstSensorClipped = 2,
}
