namespace StrokeWatch.Samples.Captures;

/// <summary>The names and scales of time units.</summary>
public static class TimeUnits
{
    /// <summary>Gives the seconds in one unit.</summary>
    public static double Seconds(TimeUnit unit) => unit switch
    {
        TimeUnit.Milliseconds => 1e-3,
        TimeUnit.Microseconds => 1e-6,
        TimeUnit.Nanoseconds => 1e-9,
        _ => 1,
    };

    /// <summary>Gives a unit's name as headers and options write it.</summary>
    public static string Name(TimeUnit unit) => unit switch
    {
        TimeUnit.Milliseconds => "ms",
        TimeUnit.Microseconds => "us",
        TimeUnit.Nanoseconds => "ns",
        _ => "s",
    };

    /// <summary>Reads a unit's name: s, ms, us, µs, ns and their usual longer spellings, in either case.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out TimeUnit unit)
    {
        TimeUnit? found = text.Trim().ToString().ToLowerInvariant() switch
        {
            "s" or "sec" or "secs" or "second" or "seconds" => TimeUnit.Seconds,
            "ms" or "msec" or "millis" or "millisecond" or "milliseconds" => TimeUnit.Milliseconds,
            // Two code points look alike: the micro sign and the Greek mu.
            "us" or "\u00b5s" or "\u03bcs" or "usec" or "micros" or "microsecond" or "microseconds" => TimeUnit.Microseconds,
            "ns" or "nsec" or "nanos" or "nanosecond" or "nanoseconds" => TimeUnit.Nanoseconds,
            _ => null,
        };
        unit = found ?? default;
        return found.HasValue;
    }
}
