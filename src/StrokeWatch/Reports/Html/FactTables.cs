using StrokeWatch.Assessment;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>What is said in words and tables: findings, alarms, coast-downs, the capture's facts.</summary>
internal static class FactTables
{
    /// <summary>Writes the findings, each with what to check first.</summary>
    public static void Findings(Markup page, ReplayResult result)
    {
        if (result.Findings.Count == 0)
        {
            page.Leaf("p", ReportWords.NoFindings);
        }

        foreach (var finding in result.Findings)
        {
            page.Open("div", ("class", "finding"));
            page.Open("h3").Text(finding.Id).Text(" ").Leaf("span", $"confidence {Figure.Of(100 * finding.Confidence, 0)} %").Close();
            page.Open("div", ("class", "because"));
            page.Leaf("p", ReportWords.Because, ("class", "name"));
            foreach (var because in finding.Because)
            {
                page.Leaf("p", because);
            }

            if (finding.Plot is { } plot)
            {
                EvidenceDrawing.Draw(page, plot);
            }

            page.Close();
            page.Open("div", ("class", "check"));
            page.Leaf("p", ReportWords.CheckFirst, ("class", "name"));
            page.Open("ol");
            foreach (var check in finding.CheckFirst)
            {
                page.Leaf("li", check);
            }

            page.Close().Close().Close();
        }
    }

    /// <summary>Writes the alarms.</summary>
    public static void Alarms(Markup page, ReplayResult result)
    {
        var pairs = ReplayJson.Pairs(result.Report.Transitions).ToList();
        if (pairs.Count == 0)
        {
            page.Leaf("p", ReportWords.NoAlarms);
            return;
        }

        var table = new PageTable(page, ReportWords.AlarmColumns);
        foreach (var (raised, cleared) in pairs)
        {
            table.Row($"{Figure.Of(raised.AtSeconds, 2)} s", cleared is { } end ? $"{Figure.Of(end.AtSeconds, 2)} s" : ReportWords.ToTheEnd, Names.Of(raised.Kind), raised.Words);
        }

        table.End();
    }

    /// <summary>Writes the facts of the capture.</summary>
    public static void Facts(Markup page, ReplayResult result)
    {
        page.Open("dl");
        foreach (var (name, value) in ReportWords.Facts(result))
        {
            page.Open("div").Leaf("dt", name).Open("dd").Leaf("bdi", value).Close().Close();
        }

        page.Close();
    }
}
