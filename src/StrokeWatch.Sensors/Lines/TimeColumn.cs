namespace StrokeWatch.Sensors.Lines;

/// <summary>What the first column of a text line is.</summary>
public enum TimeColumn
{
    /// <summary>An axis: lines carry no time.</summary>
    None,

    /// <summary>The device's time in ms.</summary>
    Milliseconds,

    /// <summary>The device's time in µs.</summary>
    Microseconds,
}
