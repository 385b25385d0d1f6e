namespace StrokeWatch.Outputs.Store;

/// <summary>What happened, beside alarms.</summary>
public enum StoreEventKind
{
    /// <summary>The daemon started.</summary>
    Start,

    /// <summary>The daemon stopped in order.</summary>
    Stop,

    /// <summary>Nothing comes from the sensor any more.</summary>
    SensorLost,

    /// <summary>The sensor is back.</summary>
    SensorBack,

    /// <summary>Samples are missing.</summary>
    Gap,

    /// <summary>The feeder was switched off and swung out.</summary>
    CoastDown,

    /// <summary>The feeder was switched on and came to its stroke.</summary>
    StartUp,

    /// <summary>A configuration was read.</summary>
    Configuration,

    /// <summary>A new version of the baseline was made.</summary>
    Baseline,

    /// <summary>The database file could not be read and a new one was started.</summary>
    StoreReplaced,

    /// <summary>Rows were dropped because the database could not take them.</summary>
    StoreGap,

    /// <summary>The database could not be written for a time.</summary>
    StoreTrouble,

    /// <summary>The computer's clock cannot be right, or was set.</summary>
    Clock,
}
