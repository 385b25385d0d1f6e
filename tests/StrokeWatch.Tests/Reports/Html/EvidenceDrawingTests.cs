using System.Globalization;
using System.Xml.Linq;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Reports.Html;
using StrokeWatch.Tests.Assessment.Findings;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

/// <summary>Each finding of the page is drawn; what is drawn is read back off its own axes.</summary>
public sealed class EvidenceDrawingTests
{
    public static TheoryData<string> Ids() => [.. Rules.Ids];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Every_finding_of_the_page_has_its_evidence_drawn_with_values_and_limits_where_they_are(string id)
    {
        var result = FindingReports.All[id];
        var plot = result.Findings.Single(finding => finding.Id == id).Plot!;
        var page = Pages.Parse(ReportPage.Write([new(result, null, null, true)]));
        var block = page.Descendants("div").Single(div => Pages.Looks(div, "finding") && div.Element("h3")!.Value.StartsWith(id, StringComparison.Ordinal));
        var drawing = Assert.Single(block.Descendants("svg"), svg => Pages.Looks(svg, "drawing"));
        Assert.StartsWith(plot.Words, block.Descendants("figcaption").Single().Value, StringComparison.Ordinal);

        var read = Pages.ReadOff(drawing, "end", upright: true);
        var told = plot.Points.Where(point => point.Value is not null).ToList();
        var span = told.Max(point => point.Value!.Value) - told.Min(point => point.Value!.Value) + Math.Abs(told.Max(point => point.Value!.Value));
        if (plot.OverTime)
        {
            Assert.True(told.Count <= 60, "such captures are short");
            var seconds = Pages.ReadOff(drawing, "middle", upright: false);
            var dots = drawing.Elements("circle").ToList();
            Assert.Equal(told.Count, dots.Count);
            for (var i = 0; i < dots.Count; i++)
            {
                Assert.Equal(told[i].Value!.Value, read(Pages.Attribute(dots[i], "cy")), 2e-3 * span);
                Assert.Equal(told[i].AtSeconds, seconds(Pages.Attribute(dots[i], "cx")), 0.03);
            }
        }
        else
        {
            var bars = drawing.Elements("rect").ToList();
            Assert.Equal(told.Count, bars.Count);
            for (var i = 0; i < bars.Count; i++)
            {
                Assert.Equal(told[i].Value!.Value, read(Pages.Attribute(bars[i], "y")), 2e-3 * span);
            }

            Assert.All(plot.Points, point => Assert.Contains(drawing.Elements("text"), text => text.Value == (point.Value is null ? $"{point.Name}: none" : point.Name)));
        }

        var limits = drawing.Elements("path").Where(path => Pages.Looks(path, "limit")).Select(path => read(Height(path))).ToList();
        Assert.All(limits, limit => Assert.Contains(plot.Limits, each => Math.Abs(each.Value - limit) < 2e-3 * (span + Math.Abs(each.Value))));
        Assert.Equal(plot.Limits.Count(limit => limit.Value >= 0), limits.Count);
    }

    [Fact]
    public void Of_many_windows_the_smallest_and_the_largest_of_each_part_of_the_time_are_drawn()
    {
        var steady = Pages.Replay("over-stroke").Report;
        var one = steady.Windows.First(window => StrokeTrace.Counts(window));
        var many = Enumerable.Range(0, 50_000).Select(i => one with { Reading = one.Reading with { StartSeconds = 0.5 * i, StrokeMetres = i == 31_234 ? 3e-3 : 2e-3 } }).ToList();
        var plot = EvidencePlots.Strokes(steady with { Windows = many });

        Assert.InRange(plot.Points.Count, 100, 500);
        Assert.Equal(3, plot.Points.Max(point => point.Value));
        Assert.Equal(plot.Points.Select(point => point.AtSeconds).Order(), plot.Points.Select(point => point.AtSeconds));
        Assert.Contains(plot.Points, point => point.Value == 3 && Math.Abs(point.AtSeconds - (0.5 * 31_234)) < 1);
    }

    private static double Height(XElement path) =>
        double.Parse(path.Attribute("d")!.Value.Split('L')[0].Split(' ')[1], CultureInfo.InvariantCulture);
}
