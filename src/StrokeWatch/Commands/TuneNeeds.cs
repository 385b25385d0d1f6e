namespace StrokeWatch.Commands;

/// <summary>The tables of a feeder file that a command cannot do without.</summary>
[Flags]
internal enum TuneNeeds
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>[springs].</summary>
    Springs = 1,

    /// <summary>[masses].</summary>
    Masses = 2,

    /// <summary>[air_gap].</summary>
    Gap = 4,
}
