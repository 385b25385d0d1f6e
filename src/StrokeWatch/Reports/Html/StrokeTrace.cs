using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;

namespace StrokeWatch.Reports.Html;

/// <summary>The stroke over time, cut where windows do not count; thinned to smallest and largest a column where there are too many windows to draw.</summary>
internal sealed class StrokeTrace
{
    /// <summary>More windows than this are thinned.</summary>
    public const int MostWindows = 1000;

    private const int Columns = 500;
    private const int MostBounds = 40;

    private StrokeTrace(IReadOnlyList<IReadOnlyList<TracePoint>> pieces, IReadOnlyList<(double Seconds, double AtLeast)> bounds, bool thinned) =>
        (Pieces, Bounds, Thinned) = (pieces, bounds, thinned);

    /// <summary>Gets the pieces, in order of time, none of them empty.</summary>
    public IReadOnlyList<IReadOnlyList<TracePoint>> Pieces { get; }

    /// <summary>Gets where the sensor clips and only a lower bound is known, in metres; the largest of a column.</summary>
    public IReadOnlyList<(double Seconds, double AtLeast)> Bounds { get; }

    /// <summary>Gets whether a point stands for several windows.</summary>
    public bool Thinned { get; }

    /// <summary>Says whether a window counts towards the stroke.</summary>
    public static bool Counts(in AssessedWindow window) =>
        window.Verdict is not (Verdict.Stopped or Verdict.Unmeasurable) && window.Reading.StrokeMetres is not null;

    /// <summary>Makes the trace.</summary>
    /// <param name="windows">The windows in order of time.</param>
    /// <param name="fromSeconds">The start of the time axis.</param>
    /// <param name="toSeconds">The end of the time axis.</param>
    public static StrokeTrace Of(IReadOnlyList<AssessedWindow> windows, double fromSeconds, double toSeconds)
    {
        var thinned = windows.Count > MostWindows;
        var pieces = new List<List<TracePoint>>();
        var whole = false;
        var last = -1;
        foreach (var window in windows)
        {
            var counts = Counts(window);
            if (!counts)
            {
                // A column holds whatever falls into it: only an empty one breaks a thinned trace.
                whole &= thinned;
                continue;
            }

            var point = Point(window);
            var column = thinned ? (int)(Columns * (point.Seconds - fromSeconds) / (toSeconds - fromSeconds)) : last + 1;
            if (!whole || column > last + 1)
            {
                pieces.Add([point]);
            }
            else if (column == last)
            {
                pieces[^1][^1] = pieces[^1][^1].With(point);
            }
            else
            {
                pieces[^1].Add(point);
            }

            (whole, last) = (true, column);
        }

        return new(pieces, BoundsOf(windows, fromSeconds, toSeconds), thinned);
    }

    private static List<(double Seconds, double AtLeast)> BoundsOf(IReadOnlyList<AssessedWindow> windows, double fromSeconds, double toSeconds) =>
    [
        .. windows.Where(window => window.Reading.AtLeastMetres is not null)
            .Select(window => (Seconds: window.Reading.StartSeconds + 0.5 * window.Reading.LengthSeconds, AtLeast: window.Reading.AtLeastMetres!.Value))
            .GroupBy(bound => (int)(MostBounds * (bound.Seconds - fromSeconds) / (toSeconds - fromSeconds)))
            .Select(column => column.MaxBy(bound => bound.AtLeast)),
    ];

    private static TracePoint Point(in AssessedWindow window)
    {
        var reading = window.Reading;
        var stroke = reading.StrokeMetres!.Value;
        var uncertainty = reading.UncertaintyMetres ?? 0;
        return new(reading.StartSeconds + 0.5 * reading.LengthSeconds, stroke, stroke, stroke - uncertainty, stroke + uncertainty);
    }
}
