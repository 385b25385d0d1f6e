namespace StrokeWatch.Measurement.Windows;

/// <summary>Whether a window may count towards the verdict, and if not, why.</summary>
public enum WindowQuality
{
    /// <summary>The window counts.</summary>
    Good,

    /// <summary>Samples stand at the sensor's rail.</summary>
    Clipped,

    /// <summary>Samples are missing.</summary>
    Gap,

    /// <summary>The feeder is starting up, coasting down or changing its stroke within the window.</summary>
    Transient,

    /// <summary>Noise or other vibration hides the stroke.</summary>
    Noisy,
}
