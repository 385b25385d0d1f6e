namespace StrokeWatch.Assessment.Alarms;

/// <summary>The alarms there are.</summary>
public enum AlarmKind
{
    /// <summary>The stroke is above the over-stroke limit.</summary>
    OverStroke,

    /// <summary>The armature strikes the core.</summary>
    Strike,

    /// <summary>The stroke is above the band.</summary>
    HighStroke,

    /// <summary>The stroke is below the band.</summary>
    LowStroke,

    /// <summary>The sensor is at its rail.</summary>
    SensorClipped,

    /// <summary>Nothing comes from the sensor.</summary>
    SensorLost,

    /// <summary>Samples come, but no stroke can be measured from them.</summary>
    Unmeasurable,

    /// <summary>The machine is no longer as it was when it was healthy; of low priority: it runs, and somebody should look at it soon.</summary>
    MachineChanged,
}
