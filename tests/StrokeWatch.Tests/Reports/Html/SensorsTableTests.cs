using StrokeWatch.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

public sealed class SensorsTableTests
{
    [Fact]
    public void The_page_shows_each_sensor_and_how_they_differ_in_both_systems()
    {
        var reported = Pages.Reported("rocking-tray");
        Assert.NotNull(reported.Portrait);
        var page = Pages.Parse(ReportPage.Write([reported]));
        var section = page.Descendants("section").Single(section => section.Element("h2")!.Value == SensorsWords.Heading);
        var rows = section.Descendants("tbody").SelectMany(body => body.Elements("tr")).Select(row => row.Elements("td").Select(cell => cell.Value).ToList()).ToList();
        var several = reported.Result.Report.Sensors!;
        Assert.Equal(3 + 3 + 3, rows.Count);
        for (var i = 0; i < 3; i++)
        {
            Assert.StartsWith(Figure.Both(several.Sensors[i].Stroke!.Value), rows[i][1], StringComparison.Ordinal);
            Assert.Contains(" in) ± ", rows[i][1], StringComparison.Ordinal);
        }

        Assert.Equal(("front (phases count from it)", "0°"), (rows[0][0], rows[0][2]));
        Assert.StartsWith("\u22128.0° ± ", rows[1][2], StringComparison.Ordinal);
        Assert.StartsWith(Figure.Both(several.FrontRear.Difference!.Value), rows[3][1], StringComparison.Ordinal);
        Assert.StartsWith("Not measured: ", rows[4][1], StringComparison.Ordinal);
        Assert.StartsWith(Figure.Both(several.Relative.Stroke!.Value), rows[5][1], StringComparison.Ordinal);
        Assert.Equal(["front", "rear", "body"], rows[6..].Select(row => row[0]));
        Assert.All(rows[6..], row => Assert.Matches("^(\u22120.0|0.0)° ± 3.4°$", row[1]));
        Assert.All(rows[6..], row => Assert.Matches("^(19.9|20.0|20.1|20.2)° ± 3.[345]°$", row[2]));
        Assert.Contains(page.Descendants("p"), paragraph => paragraph.Value.EndsWith("Of the sensor front.", StringComparison.Ordinal));
        Assert.Contains("front_x, front_y, front_z, rear_x", page.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_page_of_one_sensor_has_no_such_section() =>
        Assert.DoesNotContain(SensorsWords.Heading, ReportPage.Write([Pages.Reported("steady-50hz")]), StringComparison.Ordinal);
}
