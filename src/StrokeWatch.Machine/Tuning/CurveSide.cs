namespace StrokeWatch.Machine.Tuning;

/// <summary>The side of the tuning curve on which a feeder stands.</summary>
public enum CurveSide
{
    /// <summary>The trials do not tell.</summary>
    Unknown,

    /// <summary>More rear stiffness lowers the stroke.</summary>
    Normal,

    /// <summary>More rear stiffness raises the stroke: the tray is too heavy for its springs.</summary>
    Reverse,
}
