namespace StrokeWatch.Pipeline;

/// <summary>What was made of a capture's time stamps.</summary>
internal enum StampUse
{
    /// <summary>There are none.</summary>
    None,

    /// <summary>They are evenly spaced: they and the even spacing are the same.</summary>
    Even,

    /// <summary>They round, are shared or come late: samples were taken as evenly spaced.</summary>
    Rounding,

    /// <summary>They say when each sample was taken, and were used so.</summary>
    Used,
}
