namespace StrokeWatch.Sensors.Simulated.Histories;

/// <summary>How a fault comes.</summary>
public enum FaultGrowth
{
    /// <summary>Whole, from one day to the next.</summary>
    Sudden,

    /// <summary>From nothing, evenly from day to day.</summary>
    Linear,

    /// <summary>From a twentieth, by the same factor from day to day.</summary>
    Exponential,
}
