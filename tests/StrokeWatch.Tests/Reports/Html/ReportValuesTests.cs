using System.Text.Json;
using System.Xml.Linq;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Calibration;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

/// <summary>The page says what the JSON of the same replay says; what is drawn is read back off its own axes.</summary>
public sealed class ReportValuesTests
{
    [Theory]
    [InlineData("steady-120hz")]
    [InlineData("over-stroke")]
    [InlineData("strike-plain")]
    [InlineData("gap")]
    [InlineData("start-and-coast-down")]
    public void The_figures_of_the_page_are_those_of_the_json(string name)
    {
        var capture = Pages.Reported(name);
        var page = Pages.Parse(ReportPage.Write([capture]));
        using var json = Json(capture);
        var stroke = json.RootElement.GetProperty("stroke");
        var (millimetres, uncertainty) = (stroke.GetProperty("pp_mm").GetDouble(), stroke.GetProperty("uncertainty_mm").GetDouble());
        var big = page.Descendants("p").Single(p => Pages.Looks(p, "big"));
        Assert.Equal(millimetres, Pages.Number(big.Element("b")!.Value.Replace(" mm", "", StringComparison.Ordinal)), 0.0005001);
        Assert.Equal(millimetres / 25.4, Pages.Number(big.Element("span")!.Value.Replace(" in", "", StringComparison.Ordinal)), 0.00005001);
        var spread = page.Descendants("p").Single(p => Pages.Looks(p, "spread-words")).Value;
        Assert.Equal(Math.Ceiling(uncertainty * 1000 - 0.001) / 1000, Pages.Number(spread[2..spread.IndexOf(" mm", StringComparison.Ordinal)]), 6);
        var verdict = stroke.GetProperty("verdict").GetString()!;
        Assert.Single(page.Descendants("div"), div => div.Attribute("class")?.Value == $"judgement {verdict}");
        Assert.Equal(json.RootElement.GetProperty("strike").GetProperty("found").GetBoolean(), page.Descendants("div").Any(div => div.Attribute("class")?.Value == "judgement strike"));
        foreach (var finding in json.RootElement.GetProperty("findings").EnumerateArray())
        {
            var block = page.Descendants("div").Single(div => Pages.Looks(div, "finding") && div.Element("h3")!.Value.StartsWith(finding.GetProperty("id").GetString()!, StringComparison.Ordinal));
            Assert.Equal(finding.GetProperty("check_first").EnumerateArray().Select(check => check.GetString()), block.Descendants("li").Select(item => item.Value));
        }

        var alarms = Rows(page, "Alarms");
        Assert.Equal(json.RootElement.GetProperty("alarms").EnumerateArray().Select(alarm => alarm.GetProperty("words").GetString()), alarms.Select(row => row[3]));
        Assert.Equal(json.RootElement.GetProperty("alarms").EnumerateArray().Select(alarm => alarm.GetProperty("kind").GetString()), alarms.Select(row => row[2]));
        var decays = Rows(page, "Coast-downs");
        Assert.Equal(
            json.RootElement.GetProperty("coast_downs").EnumerateArray().Select(decay => Math.Round(decay.GetProperty("natural_frequency_hz").GetDouble(), 3)), decays.Select(row => Pages.Number(row[1])));
        var facts = page.Descendants("dl").Single().Elements("div").ToLookup(div => div.Element("dt")!.Value, div => div.Element("dd")!.Value);
        Assert.Contains($"{Figure.Count(json.RootElement.GetProperty("capture").GetProperty("samples").GetInt64())} samples", facts["Length"].Single(), StringComparison.Ordinal);
        var gaps = json.RootElement.GetProperty("capture").GetProperty("gaps").GetInt32();
        Assert.StartsWith(gaps == 0 ? "none" : $"{gaps}, ", facts["Gaps"].Single(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("steady-50hz")]
    [InlineData("low")]
    [InlineData("start-and-coast-down")]
    public void The_points_of_the_stroke_over_time_read_off_its_axes_are_the_windows_of_the_json(string name)
    {
        var capture = Pages.Reported(name);
        var page = Pages.Parse(ReportPage.Write([capture]));
        using var json = Json(capture);
        var counted = json.RootElement.GetProperty("windows").EnumerateArray()
            .Where(window => window.GetProperty("verdict").GetString() is not ("stopped" or "unmeasurable")).ToList();
        Assert.NotEmpty(counted);
        foreach (var drawing in Pages.Drawings(page, "Stroke over time"))
        {
            var (millimetres, inches) = (Pages.ReadOff(drawing, "end", upright: true), Pages.ReadOff(drawing, "start", upright: true));
            var seconds = Pages.ReadOff(drawing, "middle", upright: false);
            var dots = drawing.Elements("circle").Where(dot => Pages.Looks(dot, "dot")).ToList();
            Assert.Equal(counted.Count, dots.Count);
            for (var i = 0; i < dots.Count; i++)
            {
                var (x, y) = (Pages.Attribute(dots[i], "cx"), Pages.Attribute(dots[i], "cy"));
                var stroke = counted[i].GetProperty("pp_mm").GetDouble();
                Assert.Equal(stroke, millimetres(y), 2e-4 * stroke);
                Assert.Equal(stroke / 25.4, inches(y), 2e-4 * stroke / 25.4);
                Assert.Equal(counted[i].GetProperty("start_s").GetDouble() + 0.5 * counted[i].GetProperty("length_s").GetDouble(), seconds(x), 0.01);
            }

            var limit = Heights(drawing, "limit").Single();
            Assert.Equal(capture.Result.Report.Feeder.Band.Limit.Millimetres, millimetres(limit), 0.001);
            var band = drawing.Elements("rect").Single(box => Pages.Looks(box, "band"));
            Assert.Equal(capture.Result.Report.Feeder.Band.High.Millimetres, millimetres(Pages.Attribute(band, "y")), 0.001);
            Assert.Equal(capture.Result.Report.Feeder.Band.Low.Millimetres, millimetres(Pages.Attribute(band, "y") + Pages.Attribute(band, "height")), 0.001);
        }
    }

    [Theory]
    [InlineData("steady-60hz")]
    [InlineData("magnet-biased")]
    public void The_bar_of_the_first_order_read_off_its_axis_is_the_fundamental_stroke_times_omega_squared(string name)
    {
        var capture = Pages.Reported(name);
        var drawing = Pages.Drawings(Pages.Parse(ReportPage.Write([capture])), ReportWords.SpectrumSays).Single();
        var ticks = drawing.Elements("text").Where(text => Pages.Looks(text, "number") && text.Attribute("text-anchor")!.Value == "end")
            .Select(text => (Place: Pages.Attribute(text, "y") - 4, Decade: Math.Log10(Pages.Number(text.Value)))).ToList();
        var slope = (ticks[^1].Decade - ticks[0].Decade) / (ticks[^1].Place - ticks[0].Place);
        var top = Pages.Attribute(drawing.Elements("rect").First(bar => Pages.Looks(bar, "order")), "y");
        var read = Math.Pow(10, ticks[0].Decade + slope * (top - ticks[0].Place));
        var omega = 2 * Math.PI * capture.Window!.Value.FrequencyHz!.Value;
        Assert.Equal(0.5 * capture.Window.Value.FundamentalMetres!.Value * omega * omega, read, 0.005 * read);
    }

    [Fact]
    public void The_path_is_drawn_at_equal_scales_and_as_long_as_the_stroke()
    {
        var capture = Pages.Reported("steady-50hz");
        var drawing = Pages.Drawings(Pages.Parse(ReportPage.Write([capture])), ReportWords.PathSays).Single();
        var (along, up) = (Pages.ReadOff(drawing, "middle", upright: false), Pages.ReadOff(drawing, "end", upright: true));
        Assert.Equal(along(1) - along(0), up(0) - up(1), 1e-9);
        var points = drawing.Elements("path").Single(path => Pages.Looks(path, "ink")).Attribute("d")!.Value.Trim('M', 'Z').Split('L')
            .Select(point => point.Split(' ').Select(Pages.Number).ToArray()).Select(point => (X: along(point[0]), Z: up(point[1]))).ToList();
        var (sin, cos) = Math.SinCos(capture.Window!.Value.LineAngleDegrees!.Value * Math.PI / 180);
        var extent = points.Max(point => cos * point.X + sin * point.Z) - points.Min(point => cos * point.X + sin * point.Z);
        Assert.Equal(1e3 * capture.Window.Value.StrokeMetres!.Value, extent, 0.001 * extent);
    }

    [Fact]
    public void The_budget_adds_up_to_the_uncertainty_that_the_header_states()
    {
        var capture = Pages.Reported("material-impacts");
        var stroke = capture.Result.Report.Stroke;
        var components = stroke.Budget!.Components;
        var table = Rows(Pages.Parse(ReportPage.Write([capture])), ReportWords.BudgetHeading);
        Assert.Equal(components.Count + 2, table.Count);
        Assert.Equal(components.Select(component => component.Basis), table.Take(components.Count).Select(row => row[1]));
        Assert.Contains(table, row => row[0] == "Sensor's sensitivity" && row[1].StartsWith("assumed", StringComparison.Ordinal));
        Assert.DoesNotContain(table, row => row[0].Contains('-', StringComparison.Ordinal));
        Assert.Equal(1e3 * stroke.Uncertainty!.Value, Pages.Number(table[^1][2]), 0.00005001);
        var squares = table.Take(components.Count).Sum(row => Math.Pow(Pages.Number(row[2]), 2));
        Assert.Equal(Pages.Number(table[^2][2]), Math.Sqrt(squares), 2e-4);
        Assert.Equal(100, table.Take(components.Count).Sum(row => Pages.Number(row[4].Replace(" %", "", StringComparison.Ordinal))), 0.4);
    }

    [Fact]
    public void Every_quality_strike_and_every_kind_of_alarm_has_its_own_lane_and_its_own_sign()
    {
        var windows = Enum.GetValues<WindowQuality>().Select((quality, i) => new AssessedWindow(
            new() { StartSeconds = i, LengthSeconds = 1, Quality = quality, Motion = MotionState.Running, Strike = quality == WindowQuality.Good, StrokeMetres = quality == WindowQuality.Good ? 1.7e-3 : null },
            quality == WindowQuality.Good ? Verdict.InBand : Verdict.Unmeasurable)).Append(new(new() { StartSeconds = 5, LengthSeconds = 1, Quality = WindowQuality.Good, Motion = MotionState.Stopped }, Verdict.Stopped)).ToList();
        var result = Pages.Replay("strike-plain");
        var lanes = Lanes.Of(result.Report with { Windows = windows });
        Assert.Equal(7, lanes.Count);
        Assert.Equal(7, lanes.Select(lane => lane.Sign).Distinct().Count());
        Assert.Equal(7, lanes.Select(lane => lane.Name).Distinct().Count());
        Assert.Equal((5, 6), lanes[0].Spans.Single());
    }

    [Fact]
    public void The_window_looked_at_is_the_one_nearest_the_median_and_with_strike_where_strike_was_found()
    {
        var report = Pages.Replay("strike-hard").Report;
        var chosen = PortraitTaker.Choose(report)!.Value;
        Assert.True(chosen.Strike);
        var steady = Pages.Replay("material-impacts").Report;
        var nearest = steady.Windows.Where(window => StrokeTrace.Counts(window)).Min(window => Math.Abs(window.Reading.StrokeMetres!.Value - steady.Stroke.Stroke!.Value));
        Assert.Equal(nearest, Math.Abs(PortraitTaker.Choose(steady)!.Value.StrokeMetres!.Value - steady.Stroke.Stroke!.Value), 1e-12);
    }

    [Fact]
    public void A_calibrated_sensors_samples_are_corrected_for_the_second_look_as_for_the_first()
    {
        var calibration = new SensorCalibration
        {
            Date = new(2026, 3, 14),
            Method = "six-position tumble",
            Gain = [1.10, 0.01, 0, 0, 1.10, 0, 0.02, 0, 1.10],
            Bias = [0.3, -0.2, 0.1],
            ExpandedUncertainty = 0.004,
        };
        var plain = Pages.Reported("steady-50hz");
        var capture = Pages.Reported("steady-50hz", feeder => feeder with { Sensor = feeder.Sensor with { Calibration = calibration } });
        Assert.InRange(capture.Portrait!.StrokeMetres / plain.Portrait!.StrokeMetres, 0.88, 0.93);
        Assert.Equal(capture.Window!.Value.StrokeMetres!.Value, capture.Portrait.StrokeMetres, 1e-4 * capture.Portrait.StrokeMetres);
    }

    private static JsonDocument Json(ReportedCapture capture)
    {
        using var stream = new MemoryStream();
        ReplayJson.Write(stream, [capture.Result]);
        return JsonDocument.Parse(stream.ToArray());
    }

    private static IEnumerable<double> Heights(XElement drawing, string look) =>
        drawing.Elements("path").Where(path => Pages.Looks(path, look)).Select(path => Pages.Number(path.Attribute("d")!.Value.Split(' ')[^1]));

    private static List<List<string>> Rows(XElement page, string heading) =>
    [
        .. page.Descendants("section").Single(section => section.Element("h2")!.Value == heading).Descendants("tbody").Elements("tr")
            .Select(row => row.Elements("td").Select(cell => cell.Value).ToList()),
    ];
}
