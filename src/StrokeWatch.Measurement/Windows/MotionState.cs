namespace StrokeWatch.Measurement.Windows;

/// <summary>What the feeder does during a window.</summary>
public enum MotionState
{
    /// <summary>Not known yet: nothing was measured.</summary>
    Unknown,

    /// <summary>The tray stands still, or moves by far less than a stroke.</summary>
    Stopped,

    /// <summary>Just switched on; the machine's own vibration has not died away.</summary>
    Starting,

    /// <summary>Running steadily.</summary>
    Running,

    /// <summary>Switched off, swinging out.</summary>
    CoastingDown,
}
