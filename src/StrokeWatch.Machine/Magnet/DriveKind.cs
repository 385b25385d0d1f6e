namespace StrokeWatch.Machine.Magnet;

/// <summary>How the supply makes the magnet pull.</summary>
public enum DriveKind
{
    /// <summary>One rectified pulse of current a mains cycle: the pull comes once a cycle.</summary>
    HalfWave,

    /// <summary>Alternating current: the pull goes with the flux squared and comes twice a cycle.</summary>
    FullWave,

    /// <summary>Alternating current on top of a permanent magnet: the pull comes once a cycle.</summary>
    MagnetBiased,
}
