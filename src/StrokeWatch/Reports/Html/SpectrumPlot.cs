using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Reports.Html;

/// <summary>Acceleration along the line of action by order of the drive, on a logarithmic scale.</summary>
internal static class SpectrumPlot
{
    private const double Width = 440;
    private const double Top = 76;
    private const double Bottom = 306;

    /// <summary>Noise makes an order's amplitude exceed this many deviations of a coefficient once in twenty times (Rayleigh distribution, √(2 ln 20)).</summary>
    private const double NoiseMultiple = 2.4477;

    /// <summary>Draws the plot.</summary>
    public static void Draw(Markup page, WindowPortrait portrait)
    {
        using var drawing = new Drawing(page, Width, Bottom + 40, ReportWords.SpectrumSays);
        var noise = NoiseMultiple * portrait.NoiseDeviation;
        var most = Enumerable.Range(1, portrait.Orders).Max(portrait.Amplitude);
        var low = Math.Floor(Math.Log10(Math.Max(0.4 * noise, 1e-6 * most)));
        var high = Math.Log10(1.6 * most);
        var y = new AxisScale(low, high, Bottom, Top);
        var x = new AxisScale(0.2, portrait.Orders + 0.8, 50, Width - 46);
        var frame = new PlotFrame(drawing, x, y);
        for (var decade = (int)low; decade <= high; decade++)
        {
            frame.LeftTick(y.At(decade), Figure.Of(Math.Pow(10, decade), Math.Max(0, -decade)));
            foreach (var minor in (ReadOnlySpan<double>)[2, 5])
            {
                if (decade + Math.Log10(minor) is var at && at < high)
                {
                    frame.LeftTick(y.At(at), null);
                }
            }
        }

        frame.LeftEdge(ReportWords.AccelerationUnit);
        var reference = Math.Log10(portrait.Amplitude(1));
        frame.RightAxis(ReportWords.Decibels, 20 * (low - reference), 20 * (high - reference), 6);
        frame.BottomAxis(ReportWords.Orders(portrait.DriveHz), 8);
        var unit = x.At(2) - x.At(1);
        for (var order = 1; order <= portrait.Orders; order++)
        {
            var look = portrait.Amplitude(order) <= noise ? "order faint" : order >= portrait.FirstStrikeOrder ? "order high" : "order";
            Bar(drawing, x.At(order), Math.Clamp(0.54 * unit, 2, 18), y, portrait.Amplitude(order), look);
        }

        foreach (var (order, amplitude) in Fractions(portrait).Found)
        {
            Bar(drawing, x.At(order), Math.Clamp(0.15 * unit, 1, 4), y, amplitude, "order thin");
        }

        if (noise > 0 && Math.Log10(noise) > low)
        {
            var at = y.At(Math.Log10(noise));
            drawing.Line(x.Start, at, x.End, at, "noise");
            if (Enumerable.Range(1, portrait.Orders).All(order => order < 0.6 * portrait.Orders || portrait.Amplitude(order) < noise))
            {
                drawing.Text(x.End - 4, at - 6, ReportWords.NoiseLevel, "end", "label halo");
            }
        }

        Heard(drawing, portrait, x);
    }

    /// <summary>
    /// Gives the amplitudes between the orders that stand out of the noise, halves or thirds, whichever are stronger (a window of any length lets one leak into the other).
    /// Each must exceed what noise gives to the largest of all of them in one plot of a hundred.
    /// </summary>
    internal static (int Parts, IReadOnlyList<(double Order, double Amplitude)> Found) Fractions(WindowPortrait portrait)
    {
        var halves = Standing(portrait, 2);
        var thirds = Standing(portrait, 3);
        double Strength(IReadOnlyList<(double Order, double Amplitude)> found, int parts) => found.Sum(pair => pair.Amplitude * pair.Amplitude) / (parts - 1);
        return Strength(halves, 2) >= Strength(thirds, 3) ? (2, halves) : (3, thirds);
    }

    private static List<(double Order, double Amplitude)> Standing(WindowPortrait portrait, int parts)
    {
        var orders = Enumerable.Range(1, portrait.Orders * parts).Where(part => part % parts != 0).Select(part => (double)part / parts).ToList();
        var least = portrait.NoiseDeviation * Math.Sqrt(2 * Math.Log(100 * orders.Count));
        return [.. orders.Select(order => (order, portrait.AmplitudeBetween(order))).Where(pair => pair.Item2 > least)];
    }

    private static void Bar(Drawing drawing, double at, double width, AxisScale y, double amplitude, string look)
    {
        if (amplitude > 0 && Math.Log10(amplitude) > y.From)
        {
            drawing.Box(at - 0.5 * width, y.At(Math.Log10(amplitude)), at + 0.5 * width, y.Start, look);
        }
    }

    private static void Heard(Drawing drawing, WindowPortrait portrait, AxisScale x)
    {
        if (portrait.FirstStrikeOrder is not { } first || first > portrait.Orders)
        {
            return;
        }

        var (left, right) = (x.At(first - 0.5), x.At(portrait.Orders + 0.5));
        drawing.Path($"M{Figure.Place(left)} {Figure.Place(Top - 24)}V{Figure.Place(Top - 31)}H{Figure.Place(right)}V{Figure.Place(Top - 24)}", "edge");
        drawing.Text(right, Top - 38, ReportWords.HeardOrders(first), "end");
    }
}
