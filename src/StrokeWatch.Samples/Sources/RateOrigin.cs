namespace StrokeWatch.Samples.Sources;

/// <summary>Where a sampling rate was read.</summary>
public enum RateOrigin
{
    /// <summary>From the time column, over its whole span.</summary>
    Timestamps,

    /// <summary>From the file's header.</summary>
    Header,

    /// <summary>From the mains: nothing else says the rate.</summary>
    Supply,

    /// <summary>Given by the user.</summary>
    Option,

    /// <summary>From the sensor's own announcement.</summary>
    Sensor,
}
