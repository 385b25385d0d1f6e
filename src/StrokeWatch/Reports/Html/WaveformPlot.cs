using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>Acceleration along the line of action over a few cycles, whole or from an order of the drive on: the samples as dots, the fitted harmonics as a line.</summary>
internal static class WaveformPlot
{
    private const double Width = 440;
    private const double Bottom = 324;
    private const double Top = 34;
    private const double HalfCycles = 1.5;
    private const int LinePoints = 480;
    private const int MostDots = 320;

    /// <summary>Draws the plot.</summary>
    /// <param name="page">The page.</param>
    /// <param name="portrait">The window.</param>
    /// <param name="says">What it shows.</param>
    /// <param name="firstOrder">The first order shown; those below are taken off.</param>
    public static void Draw(Markup page, WindowPortrait portrait, string says, int firstOrder = 1)
    {
        using var drawing = new Drawing(page, Width, Bottom + 40, says);
        var period = 1e3 / portrait.DriveHz;
        double Milliseconds(double cycles) => (cycles + HalfCycles) * period;
        var line = Enumerable.Range(0, LinePoints + 1)
            .Select(i => -HalfCycles + 2 * HalfCycles * i / LinePoints).Select(cycles => (cycles, portrait.AccelerationAt(cycles, firstOrder, portrait.Orders))).ToList();
        var samples = Enumerable.Range(0, portrait.Samples.Count)
            .Select(n => (Cycles: portrait.CyclesAt(n), Value: portrait.Samples[n])).Where(sample => Math.Abs(sample.Cycles) <= HalfCycles)
            .Select(sample => sample with { Value = sample.Value - portrait.AccelerationAt(sample.Cycles, 1, firstOrder - 1) }).ToList();
        var most = 1.08 * line.Select(point => Math.Abs(point.Item2)).Concat(samples.Select(sample => Math.Abs(sample.Value))).Max();
        var x = new AxisScale(0, 2 * HalfCycles * period, 50, Width - 46);
        var y = new AxisScale(-most, most, Bottom, Top);
        var frame = new PlotFrame(drawing, x, y);
        frame.BottomAxis(ReportWords.WaveformTime, 7);
        frame.LeftAxis(ReportWords.AccelerationUnit, 7);
        frame.RightAxis("g", -most / Gravity.Standard, most / Gravity.Standard, 7);
        drawing.Line(x.Start, y.At(0), x.End, y.At(0), "zero");
        for (var cycle = 1; cycle < 2 * HalfCycles; cycle++)
        {
            drawing.Line(x.At(cycle * period), Top, x.At(cycle * period), Bottom, "cycle");
        }

        if (samples.Count <= MostDots)
        {
            drawing.Through(line.Select(point => (x.At(Milliseconds(point.cycles)), y.At(point.Item2))), "ink");
            foreach (var (cycles, value) in samples)
            {
                drawing.Dot(x.At(Milliseconds(cycles)), y.At(value), 1.9, "sample");
            }
        }
        else
        {
            drawing.Through(Thin(samples).Select(sample => (x.At(Milliseconds(sample.Cycles)), y.At(sample.Value))), "trace");
            drawing.Through(line.Select(point => (x.At(Milliseconds(point.cycles)), y.At(point.Item2))), "ink");
        }
    }

    /// <summary>Says whether the samples are drawn as dots; where there are too many, as a thin line.</summary>
    public static bool Dots(WindowPortrait portrait) => 2 * HalfCycles / (portrait.CyclesAt(1) - portrait.CyclesAt(0)) <= MostDots;

    private static IEnumerable<(double Cycles, double Value)> Thin(List<(double Cycles, double Value)> samples)
    {
        var run = Math.Max(1, samples.Count / LinePoints);
        foreach (var chunk in samples.Chunk(2 * run))
        {
            var (least, most) = (chunk.MinBy(sample => sample.Value), chunk.MaxBy(sample => sample.Value));
            yield return least.Cycles <= most.Cycles ? least : most;
            yield return least.Cycles <= most.Cycles ? most : least;
        }
    }
}
