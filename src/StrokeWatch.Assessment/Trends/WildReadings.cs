namespace StrokeWatch.Assessment.Trends;

/// <summary>Single readings that stand far from all their neighbours: a step has company, a wild reading has none.</summary>
internal static class WildReadings
{
    private const int Company = 5;
    private const double Far = 4;

    /// <summary>Marks readings more than four of their standard deviations off the median of the five about them.</summary>
    public static bool[] Mark(IReadOnlyList<DatedReading> readings)
    {
        var wild = new bool[readings.Count];
        if (readings.Count < Company)
        {
            return wild;
        }

        Span<double> about = stackalloc double[Company];
        for (var i = 0; i < wild.Length; i++)
        {
            var first = Math.Clamp(i - Company / 2, 0, readings.Count - Company);
            for (var j = 0; j < Company; j++)
            {
                about[j] = readings[first + j].Value;
            }

            about.Sort();
            wild[i] = Math.Abs(readings[i].Value - about[Company / 2]) > Far * readings[i].Deviation;
        }

        return wild;
    }
}
