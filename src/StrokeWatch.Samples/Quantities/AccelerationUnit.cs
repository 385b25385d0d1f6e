namespace StrokeWatch.Samples.Quantities;

/// <summary>The unit in which a source gives acceleration.</summary>
public enum AccelerationUnit
{
    /// <summary>Metres per second squared.</summary>
    MetresPerSecondSquared,

    /// <summary>Millimetres per second squared.</summary>
    MillimetresPerSecondSquared,

    /// <summary>Standard gravities.</summary>
    G,

    /// <summary>Thousandths of standard gravity.</summary>
    MilliG,

    /// <summary>Thousands of standard gravities.</summary>
    KiloG,

    /// <summary>Counts of a converter; a scale must be given beside it.</summary>
    Counts,
}
