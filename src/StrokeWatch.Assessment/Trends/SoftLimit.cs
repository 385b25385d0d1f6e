namespace StrokeWatch.Assessment.Trends;

/// <summary>Holds wild readings within a limit without a corner: y = z / (1 + (z/w)⁴)^¼ (winsorising). One standard deviation passes unchanged within half a per cent at w = 3.</summary>
/// <remarks>Smooth, so that run lengths stay as accurate as without it; a sharp limit would put steps into them.</remarks>
public static class SoftLimit
{
    /// <summary>Limits a reading.</summary>
    /// <param name="reading">The reading, in standard deviations.</param>
    /// <param name="limit">What no value exceeds; infinite for no limit.</param>
    public static double Of(double reading, double limit)
    {
        if (double.IsPositiveInfinity(limit))
        {
            return reading;
        }

        var ratio = Math.Abs(reading) / limit;

        // Far out the fourth power of the ratio would overflow; of its inverse it only vanishes.
        return ratio <= 1
            ? reading / Math.Sqrt(Math.Sqrt(1 + Fourth(ratio)))
            : Math.CopySign(limit, reading) / Math.Sqrt(Math.Sqrt(1 + Fourth(1 / ratio)));
    }

    /// <summary>Finds the reading that was limited to a value, and how fast it changes with the value; infinite at or beyond the limit.</summary>
    public static (double Reading, double Slope) Undo(double value, double limit)
    {
        if (double.IsPositiveInfinity(limit))
        {
            return (value, 1);
        }

        var rest = 1 - Fourth(value / limit);
        if (rest <= 0)
        {
            return (Math.CopySign(double.PositiveInfinity, value), 0);
        }

        var root = Math.Sqrt(Math.Sqrt(rest));
        return (value / root, 1 / (rest * root));
    }

    private static double Fourth(double value) => value * value * (value * value);
}
