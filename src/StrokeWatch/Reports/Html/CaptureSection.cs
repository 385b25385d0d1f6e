using StrokeWatch.Assessment;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>All that the page says of one capture.</summary>
internal static class CaptureSection
{
    private const double Wide = 960;
    private const double Narrow = 420;

    /// <summary>Writes the section.</summary>
    public static void Write(Markup page, ReportedCapture capture, string anchor)
    {
        var result = capture.Result;
        page.Open("article", ("id", anchor));
        Head(page, capture);
        Section(page, ReportWords.StrokeHeading, () => OverTime(page, capture));
        if (result.Report.Sensors is { } several)
        {
            Section(page, SensorsWords.Heading, () => SensorsTable.Write(page, several));
        }

        Section(page, ReportWords.FindingsHeading, () => FactTables.Findings(page, result));
        Section(page, ReportWords.AlarmsHeading, () => FactTables.Alarms(page, result));
        Section(page, ReportWords.PortraitHeading, () => Portrait(page, capture));
        Section(page, ReportWords.BudgetHeading, () => BudgetTable.Write(page, result));
        Section(page, ReportWords.DecaysHeading, () => TransientTables.Decays(page, result));
        Section(page, ReportWords.StartsHeading, () => TransientTables.Starts(page, result));
        Section(page, ReportWords.FactsHeading, () => FactTables.Facts(page, result));
        page.Close();
    }

    private static void Section(Markup page, string heading, Action content)
    {
        page.Open("section");
        page.Leaf("h2", heading);
        content();
        page.Close();
    }

    private static void Head(Markup page, ReportedCapture capture)
    {
        var report = capture.Result.Report;
        var stroke = report.Stroke;
        page.Open("header");
        page.Open("h1").Leaf("bdi", report.Feeder.Name).Close();
        page.Open("p", ("class", "from")).Leaf("bdi", capture.Result.File);
        if (report.Feeder.Model is { } model)
        {
            page.Text(" · ").Leaf("bdi", ReportWords.Model(model));
        }

        page.Close();
        page.Open("div", ("class", "reading"));
        page.Open("div", ("class", "figure"));
        page.Leaf("p", ReportWords.Stroke, ("class", "name"));
        if (stroke is { Stroke: { } metres, Uncertainty: { } spread })
        {
            page.Open("p", ("class", "big")).Leaf("b", $"{Figure.Millimetres(metres)} mm").Text(" ").Leaf("span", $"{Figure.Inches(metres)} in").Close();
            page.Leaf("p", ReportWords.Expand(spread), ("class", "spread-words"));
        }
        else
        {
            page.Open("p", ("class", "big")).Leaf("b", ReportWords.NoStroke).Close();
        }

        page.Close();
        Judgement(page, ReportWords.Verdict, ReportWords.Of(stroke.Verdict), ReportWords.VerdictSign(stroke.Verdict), Names.Of(stroke.Verdict), stroke.Reason);
        Judgement(page, ReportWords.Strike, ReportWords.Of(report.Strike), null, report.Strike.Found ? "strike" : "quiet", null);
        page.Close();
        RuleDrawing.Draw(page, report, Wide, "wide");
        RuleDrawing.Draw(page, report, Narrow, "narrow");
        if (stroke is { Least: { } least, Most: { } most })
        {
            var counted = report.Windows.Count(window => StrokeTrace.Counts(window));
            page.Open("p", ("class", "detail")).Text($"{ReportWords.MedianOf(counted, report.Windows.Count)} {ReportWords.Range(least, most)}");
            page.Text(stroke.LineAngleDegrees is { } angle ? $" {ReportWords.Line(angle, stroke.EllipseRatio)}" : "").Close();
        }

        if (report.Supply?.Words is { } voltage)
        {
            page.Leaf("p", $"{char.ToUpperInvariant(voltage[0])}{voltage[1..]}.", ("class", "detail"));
        }

        if (capture.Result.Contributions.SensitivityAssumed && stroke.Stroke is not null)
        {
            page.Leaf("p", $"{char.ToUpperInvariant(Assumptions.Of(report.Feeder)[0])}{Assumptions.Of(report.Feeder)[1..]}.", ("class", "detail"));
        }

        page.Leaf("p", ReportWords.Caution, ("class", "caution"));
        page.Close();
    }

    private static void Judgement(Markup page, string name, string words, string? sign, string kind, string? reason)
    {
        page.Open("div", ("class", $"judgement {kind}"));
        page.Leaf("p", name, ("class", "name"));
        page.Open("p", ("class", "words"));
        if (sign is not null)
        {
            page.Open("svg", ("class", "sign-box"), ("viewBox", "-10 -10 20 20"), ("aria-hidden", "true"));
            page.Empty("path", ("d", sign));
            page.Close();
        }

        page.Text(words).Close();
        if (reason is not null)
        {
            page.Leaf("p", $"{char.ToUpperInvariant(reason[0])}{reason[1..]}.", ("class", "reason"));
        }

        page.Close();
    }

    private static void OverTime(Markup page, ReportedCapture capture)
    {
        if (capture.Result.Report.Windows.Count == 0)
        {
            page.Leaf("p", ReportWords.NoWindows);
            return;
        }

        page.Open("figure");
        StrokePlot.Draw(page, capture.Result, Wide, "wide");
        StrokePlot.Draw(page, capture.Result, Narrow, "narrow");
        var report = capture.Result.Report;
        var caption = report.Stroke.Stroke is null ? ReportWords.NothingCounted : ReportWords.StrokeCaption(report.Windows.Count > StrokeTrace.MostWindows);
        page.Leaf("figcaption", report.Windows.Any(window => window.Reading.AtLeastMetres is not null) ? caption + ReportWords.BoundCaption : caption);
        page.Close();
    }

    private static void Portrait(Markup page, ReportedCapture capture)
    {
        if (capture is not { Window: { } window, Portrait: { } portrait })
        {
            page.Leaf("p", capture.Window is null ? ReportWords.NoWindowCounted : capture.Repeatable ? ReportWords.NotFoundAgain : ReportWords.ReadOnce);
            return;
        }

        var sensor = PortraitTaker.SensorOf(capture.Result.Report, window);
        page.Leaf("p", ReportWords.Windowed(window) + (sensor is { Index: var index } ? $" {SensorsWords.PortraitOf(capture.Result.Report.Sensors!.Sensors[index].Place)}" : ""));
        page.Open("div", ("class", "plots"));
        var waveform = WaveformPlot.Dots(portrait) ? ReportWords.WaveformDots : ReportWords.WaveformLine;
        Plot(page, ReportWords.WaveformTitle, () => WaveformPlot.Draw(page, portrait, ReportWords.WaveformSays), waveform);
        if (PathPlot.Possible(portrait))
        {
            Plot(page, ReportWords.PathTitle, () => PathPlot.Draw(page, portrait, sensor?.Stroke ?? window.StrokeMetres!.Value), ReportWords.PathCaption);
        }
        else
        {
            page.Leaf("p", ReportWords.NoPath);
        }

        var spectrum = ReportWords.SpectrumCaption(portrait.FirstStrikeOrder, window.Strike, window.StrikeScore, SpectrumPlot.Fractions(portrait) is { Found.Count: > 0, Parts: var parts } ? parts : null);
        Plot(page, ReportWords.SpectrumTitle, () => SpectrumPlot.Draw(page, portrait), spectrum);
        if (portrait.FirstStrikeOrder is { } first && first <= portrait.Orders)
        {
            Plot(page, ReportWords.HighTitle(first), () => WaveformPlot.Draw(page, portrait, ReportWords.HighSays, first), ReportWords.HighCaption(first));
        }

        page.Close();
    }

    private static void Plot(Markup page, string title, Action draw, string caption)
    {
        page.Open("figure");
        page.Leaf("h3", title);
        draw();
        page.Leaf("figcaption", caption);
        page.Close();
    }
}
