namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>What a sensor's electronics do instead of measuring.</summary>
internal enum SensorFailure
{
    /// <summary>They measure.</summary>
    None,

    /// <summary>They say the last value again and again.</summary>
    Stuck,

    /// <summary>They say nothing but zero.</summary>
    Dead,
}
