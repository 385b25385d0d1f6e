namespace StrokeWatch.Samples.Captures;

/// <summary>The unit of a capture's time column.</summary>
public enum TimeUnit
{
    /// <summary>Seconds.</summary>
    Seconds,

    /// <summary>Thousandths of a second.</summary>
    Milliseconds,

    /// <summary>Millionths of a second.</summary>
    Microseconds,

    /// <summary>Thousandths of a millionth of a second.</summary>
    Nanoseconds,
}
