namespace StrokeWatch.Measurement.CoastDown;

/// <summary>What set the feeder's own vibration off.</summary>
public enum TransientKind
{
    /// <summary>The feeder was switched off and swung out.</summary>
    Stop,

    /// <summary>The feeder was switched on.</summary>
    Start,
}
