using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>Guesses the unit of a time column that does not say it, by the size of its numbers.</summary>
internal static class TimeUnitGuess
{
    /// <summary>The year 2001 and the year 2100 in seconds since 1970: a count of seconds between them is a date.</summary>
    private const double FirstDate = 9.8e8, LastDate = 4.1e9;

    /// <summary>Gives the unit in which the mean step would be the step of a vibration sensor: 20 Hz to 200 kHz.</summary>
    public static TimeUnit Of(IReadOnlyList<DecimalNumber> times)
    {
        if (times.Count < 2)
        {
            return TimeUnit.Seconds;
        }

        var step = Math.Abs(times[^1].Minus(times[0])) / (times.Count - 1);
        var first = times[0].Minus(default);
        foreach (var unit in Enum.GetValues<TimeUnit>())
        {
            var scale = TimeUnits.Seconds(unit);
            if (first * scale is > FirstDate and < LastDate && step * scale is > 1e-7 and < 0.1)
            {
                return unit;
            }
        }

        return step < 0.05 ? TimeUnit.Seconds : step < 5 ? TimeUnit.Milliseconds : step < 5e4 ? TimeUnit.Microseconds : TimeUnit.Nanoseconds;
    }
}
