namespace StrokeWatch.Sensors.Live;

/// <summary>What can happen to a live sensor.</summary>
public enum SensorEventKind
{
    /// <summary>The port could not be opened; told once for each different reason.</summary>
    Unreachable,

    /// <summary>The port was open and is gone.</summary>
    Lost,

    /// <summary>The first samples after an opening.</summary>
    Back,

    /// <summary>The device started anew: its counters began again.</summary>
    Restarted,

    /// <summary>The sensor says something else than the configuration, or than its own clock.</summary>
    Contradiction,
}
