namespace StrokeWatch.Assessment.Trends;

/// <summary>Single readings that stand far from all their neighbours: a step has company, a wild reading has none.</summary>
internal static class WildReadings
{
    private const int Company = 5;
    private const double Far = 4;

    /// <summary>Marks readings more than four of their standard deviations off the median of the five about them and off both neighbours.</summary>
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
            var reach = Far * readings[i].Deviation;
            bool Near(double value) => Math.Abs(readings[i].Value - value) <= reach;
            wild[i] = !Near(about[Company / 2]) && !(i > 0 && Near(readings[i - 1].Value)) && !(i + 1 < wild.Length && Near(readings[i + 1].Value));
        }

        return wild;
    }
}
