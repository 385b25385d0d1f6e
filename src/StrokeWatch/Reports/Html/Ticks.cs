namespace StrokeWatch.Reports.Html;

/// <summary>Round steps for an axis: 1, 2 or 5 times a power of ten.</summary>
internal static class Ticks
{
    /// <summary>Gives the smallest round step that puts at most a number of ticks into a span.</summary>
    public static double Step(double span, int most)
    {
        var least = span / Math.Max(1, most);
        var decade = Math.Pow(10, Math.Floor(Math.Log10(least)));
        foreach (var multiple in (ReadOnlySpan<double>)[1, 2, 5])
        {
            if (multiple * decade >= least * (1 - 1e-9))
            {
                return multiple * decade;
            }
        }

        return 10 * decade;
    }

    /// <summary>Gives the decimals that a step needs.</summary>
    public static int Digits(double step) => Math.Max(0, (int)-Math.Floor(Math.Log10(step) + 1e-9));

    /// <summary>Gives the multiples of a step within a span, both ends counted.</summary>
    public static IEnumerable<double> Between(double from, double to, double step)
    {
        var last = (long)Math.Floor(to / step + 1e-9);
        for (var i = (long)Math.Ceiling(from / step - 1e-9); i <= last; i++)
        {
            yield return i * step;
        }
    }
}
