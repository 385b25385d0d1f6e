using System.Collections;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The windows of a list in which the feeder ran steadily; it holds their places, not copies.</summary>
internal sealed class SteadyWindows : IReadOnlyList<WindowReading>
{
    private readonly WindowList windows;
    private readonly List<int> places = [];

    /// <summary>Looks through a list.</summary>
    public SteadyWindows(WindowList windows)
    {
        this.windows = windows;
        for (var i = 0; i < windows.Count; i++)
        {
            if (windows.Kept(i) is { Verdict: not (Verdict.Stopped or Verdict.Unmeasurable), StrokeMetres: not null })
            {
                places.Add(i);
            }
        }
    }

    /// <summary>Gives one value of all windows in order, without those that lack it.</summary>
    public double[] Values(KeptValue value)
    {
        var (values, count) = (new double[places.Count], 0);
        foreach (var place in places)
        {
            if (value(windows.Kept(place)) is { } known)
            {
                values[count++] = known;
            }
        }

        return count == values.Length ? values : values[..count];
    }

    /// <inheritdoc/>
    public int Count => places.Count;

    /// <inheritdoc/>
    public WindowReading this[int index] => windows[places[index]].Reading;

    /// <inheritdoc/>
    public IEnumerator<WindowReading> GetEnumerator() => places.Select(place => windows[place].Reading).GetEnumerator();

    /// <inheritdoc/>
    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
