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

    /// <summary>Samples come, but a sensor gives the same value again and again.</summary>
    SensorStuck,

    /// <summary>What is measured and alarmed cannot be written down.</summary>
    StoreTrouble,

    /// <summary>Something that is told of measurements and alarms fails.</summary>
    OutputTrouble,
}
