namespace StrokeWatch.Samples.Captures;

/// <summary>What a column of a capture is taken for.</summary>
public enum ColumnRole
{
    /// <summary>Not said: its header decides, or its place.</summary>
    Unsaid,

    /// <summary>Time.</summary>
    Time,

    /// <summary>Acceleration along x.</summary>
    X,

    /// <summary>Acceleration along y.</summary>
    Y,

    /// <summary>Acceleration along z.</summary>
    Z,
}
