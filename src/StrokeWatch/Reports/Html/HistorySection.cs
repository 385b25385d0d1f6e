using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>What several captures of one feeder say together: the causes that they point to, each with the course of its evidence.</summary>
internal static class HistorySection
{
    private const double Width = 360, Height = 150;
    private const double Healthy = 2;
    private const double LeastShown = 4;

    /// <summary>Writes the section; nothing where the captures make no history.</summary>
    public static void Write(Markup page, IReadOnlyList<ReplayResult> results)
    {
        if (Histories.Of(results) is not { } history)
        {
            return;
        }

        page.Open("section");
        page.Leaf("h2", ReportWords.OverTime);
        var findings = HistoryRules.Look(history);
        if (findings.Count == 0)
        {
            page.Leaf("p", ReportWords.AsItWas);
        }

        foreach (var finding in findings)
        {
            Finding(page, finding, history);
        }

        page.Close();
    }

    private static void Finding(Markup page, CauseFinding finding, HistoryReport history)
    {
        page.Open("div", ("class", "finding"));
        page.Open("h3").Text(finding.Words).Text(" ").Leaf("span", $"{finding.Id}, confidence {Figure.Of(100 * finding.Confidence, 0)} %").Close();
        page.Open("div", ("class", "because"));
        page.Leaf("p", ReportWords.Because, ("class", "name"));
        for (var i = 0; i < finding.Because.Count; i++)
        {
            page.Leaf("p", finding.Because[i]);
            if (i < finding.Evidence.Count)
            {
                Course(page, finding.Evidence[i], history);
            }
        }

        page.Leaf("p", finding.Physics);
        page.Close();
        page.Open("div", ("class", "check"));
        page.Leaf("p", ReportWords.CheckFirst, ("class", "name"));
        page.Open("ol");
        foreach (var check in finding.CheckFirst)
        {
            page.Leaf("li", check);
        }

        page.Close();
        page.Leaf("p", finding.Confirm);
        if (finding.TellApart is { } apart)
        {
            page.Leaf("p", apart);
        }

        page.Close().Close();
    }

    /// <summary>Draws a symptom from capture to capture, in spreads of the healthy machine; the band is where nineteen of twenty healthy captures lie.</summary>
    private static void Course(Markup page, SymptomReading symptom, HistoryReport history)
    {
        var first = history.Points[0].Recorded;
        var points = history.Points.Select(point => (Days: (point.Recorded - first).TotalDays, Value: symptom.Of(point.Features)))
            .Where(point => point.Value is not null).Select(point => (point.Days, Value: point.Value!.Value)).ToList();
        using var drawing = new Drawing(page, Width, Height, ReportWords.CourseSays(symptom));
        var days = new AxisScale(0, Math.Max(1e-3, (history.Points[^1].Recorded - first).TotalDays), 46, Width - 10);
        var (least, most) = (Math.Min(-LeastShown, points.Min(point => point.Value)), Math.Max(LeastShown, points.Max(point => point.Value)));
        var value = new AxisScale(least, most, Height - 40, 22);
        var frame = new PlotFrame(drawing, days, value);
        frame.BottomAxis(ReportWords.DaysAxis, 6);
        frame.LeftAxis(ReportWords.SpreadAxis, 4);
        drawing.Box(days.Start, value.At(Healthy), days.End, value.At(-Healthy), "band");
        drawing.Through(points.Select(point => (days.At(point.Days), value.At(point.Value))), "ink");
        foreach (var (day, at) in points)
        {
            drawing.Dot(days.At(day), value.At(at), 2.6, "dot");
        }
    }
}
