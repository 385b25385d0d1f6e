namespace StrokeWatch.Sensors.Chips;

/// <summary>Whether rate, bus and store of a chip go together.</summary>
public enum BusVerdict
{
    /// <summary>They do.</summary>
    Fits,

    /// <summary>They do while the board is not too busy: a drain may be less than 10 ms late.</summary>
    Tight,

    /// <summary>They do not.</summary>
    Refused,
}
