using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using StrokeWatch.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

public sealed class ReportPageTests
{
    public static TheoryData<string> Names() => [.. Directory.GetFiles(Pages.SimData, "*.feeder.toml")
        .Select(file => Path.GetFileName(file)[..^".feeder.toml".Length]).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_page_of_every_simulated_capture_is_well_formed_and_refers_to_nothing_outside_itself(string name)
    {
        var text = ReportPage.Write([Pages.Reported(name)]);
        var page = Pages.Parse(text);
        Assert.Equal("html", page.Name.LocalName);
        Assert.DoesNotContain("http://", text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https://", text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", text, StringComparison.Ordinal);
        Assert.DoesNotContain(page.Descendants(), element => element.Name.LocalName is "script" or "link" or "img" or "iframe" or "object");
        Assert.DoesNotContain(page.Descendants().Attributes(), attribute => attribute.Name.LocalName is "style" or "src" || attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        var ids = page.Descendants().Attributes("id").Select(id => id.Value).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        var references = Regex.Matches(text, @"url\(([^)]*)\)").Select(match => match.Groups[1].Value)
            .Concat(page.Descendants("a").Select(link => link.Attribute("href")!.Value)).ToList();
        Assert.NotEmpty(references);
        Assert.All(references, reference => Assert.Contains(reference.TrimStart('#'), ids));
        Assert.All(references, reference => Assert.StartsWith("#", reference, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void No_label_of_a_drawing_runs_out_of_it_and_no_two_labels_cover_each_other(string name)
    {
        var page = Pages.Parse(ReportPage.Write([Pages.Reported(name)]));
        foreach (var drawing in page.Descendants("svg").Where(svg => Pages.Looks(svg, "drawing")))
        {
            var size = drawing.Attribute("viewBox")!.Value.Split(' ').Select(Pages.Number).ToArray();
            var boxes = drawing.Elements("text").Select(text =>
            {
                // The page's own faces take about 0.56 of their size a letter.
                var width = 11 * 0.52 * text.Value.Length;
                var x = Pages.Attribute(text, "x") - text.Attribute("text-anchor")!.Value switch { "middle" => 0.5 * width, "end" => width, _ => 0 };
                return (text.Value, Left: x, Right: x + width, Top: Pages.Attribute(text, "y") - 9, Bottom: Pages.Attribute(text, "y") + 1);
            }).ToList();
            Assert.NotEmpty(boxes);
            Assert.All(boxes, box => Assert.True(box.Left >= -1 && box.Right <= size[2] + 1 && box.Top >= 0 && box.Bottom <= size[3], $"{name}: '{box.Value}' runs out"));
            for (var i = 0; i < boxes.Count; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    var (a, b) = (boxes[i], boxes[j]);
                    Assert.False(a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom, $"{name}: '{a.Value}' covers '{b.Value}'");
                }
            }
        }
    }

    [Fact]
    public void The_policy_allows_nothing_but_the_style_sheet_whose_hash_it_names()
    {
        var page = Pages.Parse(ReportPage.Write([Pages.Reported("stopped")]));
        var policy = page.Descendants("meta").Single(meta => meta.Attribute("http-equiv") is not null).Attribute("content")!.Value;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(page.Descendants("style").Single().Value)));
        Assert.Equal($"default-src 'none'; style-src 'sha256-{hash}'; base-uri 'none'; form-action 'none'", policy);
    }

    [Fact]
    public void The_same_results_give_the_same_bytes_under_a_culture_with_decimal_commas()
    {
        var captures = new[] { Pages.Reported("start-and-coast-down"), Pages.Reported("strike-every-second"), Pages.Reported("clipped") };
        var before = ReportPage.Write(captures);
        var culture = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            comma.NumberFormat.NumberGroupSeparator = ".";
            comma.NumberFormat.NegativeSign = "~";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal("1,5", (1.5).ToString("F1", CultureInfo.CurrentCulture));
            Assert.Equal(before, ReportPage.Write(captures));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    [Fact]
    public void A_hostile_feeder_name_stays_text()
    {
        const string name = "</title><script>alert('1')</script> \"&amp; \u0000\u001b\u202e\ud800 ]]> end";
        var text = ReportPage.Write([Pages.Reported("steady-50hz", feeder => feeder with { Name = name, Model = "<b>&" })]);
        var page = Pages.Parse(text);
        Assert.Empty(page.Descendants("script"));
        Assert.Single(page.Descendants("title"));
        Assert.Equal("</title><script>alert('1')</script> \"&amp; \uFFFD\uFFFD\uFFFD\uFFFD ]]> end", page.Descendants("h1").Single().Value);
        Assert.Contains("model <b>&", page.Descendants("header").Single().Value, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("stopped", "The tray stands still", "not counted: tray stands still")]
    [InlineData("clipped", "Samples stand at the sensor's rail", "not counted: sensor at its rail")]
    public void A_capture_without_a_stroke_gives_a_page_that_says_why(string name, string reason, string lane)
    {
        var page = Pages.Parse(ReportPage.Write([Pages.Reported(name)]));
        Assert.Contains("No stroke", page.Descendants("header").Single().Value, StringComparison.Ordinal);
        Assert.Contains(reason, page.Descendants("header").Single().Value, StringComparison.Ordinal);
        Assert.Contains(page.Descendants("text"), text => text.Value == lane);
        Assert.Contains("There is no window to look at", page.Value, StringComparison.Ordinal);
        Assert.Contains("no uncertainty to break down", page.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_capture_without_a_single_window_gives_a_page_that_says_so()
    {
        var steady = Pages.Reported("steady-50hz").Result;
        var none = steady with
        {
            Report = steady.Report with { Windows = [], Decays = [], Transitions = [], Stroke = steady.Report.Stroke with { Stroke = null, Uncertainty = null, Least = null, Most = null, Reason = "the capture is shorter than ten cycles of the drive" } },
        };
        var page = Pages.Parse(ReportPage.Write([new(none, null, null, true)]));
        Assert.Contains("The capture is shorter than ten cycles of the drive.", page.Value, StringComparison.Ordinal);
        Assert.Contains("There is nothing to draw", page.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_capture_that_cannot_be_read_twice_says_so_in_place_of_the_portrait()
    {
        var capture = Pages.Reported("steady-50hz");
        Assert.Contains("through a pipe", ReportPage.Write([capture with { Portrait = null, Repeatable = false }]), StringComparison.Ordinal);
        Assert.Contains("has the file changed", ReportPage.Write([capture with { Portrait = null }]), StringComparison.Ordinal);
        Assert.DoesNotContain("through a pipe", ReportPage.Write([capture]), StringComparison.Ordinal);
    }

    [Fact]
    public void Several_captures_have_a_section_each_and_a_table_that_leads_to_them()
    {
        string[] names = ["steady-60hz", "low", "strike-plain"];
        var page = Pages.Parse(ReportPage.Write([.. names.Select(name => Pages.Reported(name))]));
        Assert.Equal(["capture-1", "capture-2", "capture-3"], page.Descendants("article").Select(article => article.Attribute("id")!.Value));
        Assert.Equal(names, page.Descendants("nav").Single().Descendants("a").Select(link => link.Value));
        var cells = page.Descendants("nav").Single().Descendants("tbody").Elements("tr").Select(row => row.Elements("td").ElementAt(2).Value);
        Assert.Equal(["In the band", "Low: below the band", "In the band"], cells);
    }

    [Fact]
    public void The_words_on_the_page_stand_out_from_their_ground_in_light_dark_and_print()
    {
        // WCAG 2.2, 1.4.3: 4.5 to 1 for text of this size.
        var palettes = Regex.Matches(PageStyle.Sheet, @":root \{([^}]*)\}").Select(match => Regex.Matches(match.Groups[1].Value, @"--(\w+): #(\w+)")
            .ToDictionary(colour => colour.Groups[1].Value, colour => Luminance(colour.Groups[2].Value))).ToList();
        Assert.Equal(3, palettes.Count);
        foreach (var palette in palettes)
        {
            foreach (var ink in (string[])["ink", "soft", "glass", "amber", "stop"])
            {
                foreach (var ground in (string[])["paper", "sheet"])
                {
                    var (light, dark) = (Math.Max(palette[ink], palette[ground]), Math.Min(palette[ink], palette[ground]));
                    Assert.True((light + 0.05) / (dark + 0.05) >= 4.5, $"{ink} on {ground}");
                }
            }
        }
    }

    private static double Luminance(string hex)
    {
        var wide = hex.Length == 3 ? string.Concat(hex.Select(c => $"{c}{c}")) : hex;
        double Linear(int at)
        {
            var value = int.Parse(wide.AsSpan(at, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0;
            return value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
        }

        return 0.2126 * Linear(0) + 0.7152 * Linear(2) + 0.0722 * Linear(4);
    }
}
