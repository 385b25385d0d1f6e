using System.Text.Json.Nodes;
using System.Xml.Linq;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class TuneSheetTests : IDisposable
{
    private readonly TuneFiles files = new();

    public void Dispose() => files.Dispose();

    [Theory]
    [InlineData("curve")]
    [InlineData("stacks")]
    [InlineData("gap")]
    [InlineData("voltage")]
    [InlineData("conveying")]
    [InlineData("mass")]
    public void A_sheet_says_the_same_in_words_numbers_and_page_under_every_culture(string name)
    {
        string[] command = ["tune", name, "--feeder", files.Write("feeder.toml", TuneFiles.Feeder), "--trials", files.Write("trials.toml", TuneFiles.Trial)];
        var (status, text, errors) = TuneFiles.Run([.. command, "--report", files.At("page.html")]);
        Assert.Equal((0, ""), (status, errors));
        var page = File.ReadAllText(files.At("page.html"));
        var comma = TuneFiles.WithDecimalComma(() => TuneFiles.Run([.. command, "--report", files.At("comma.html")]));
        Assert.Equal(text, comma.Output);
        Assert.Equal(page, File.ReadAllText(files.At("comma.html")));

        var (_, json, _) = TuneFiles.Run([.. command, "--json", "-"]);
        Assert.Equal(name, (string)JsonNode.Parse(json)!["sheet"]!);
        Assert.All(JsonNode.Parse(json)!["lines"]!.AsObject(), line => Assert.True(line.Value!.AsObject().First().Value!.AsArray().Count > 10));

        // HTML that is well-formed XML, fetches nothing and runs nothing; its drawing holds a line.
        var document = XDocument.Parse(page[page.IndexOf("<html", StringComparison.Ordinal)..]);
        Assert.Empty(document.Descendants("script"));
        Assert.Equal(2, document.Descendants("svg").Count(svg => ((string?)svg.Attribute("class"))?.StartsWith("drawing", StringComparison.Ordinal) == true));
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        foreach (var note in JsonNode.Parse(json)!["notes"]!.AsArray())
        {
            Assert.Contains((string)note!, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_clearance_is_that_of_the_closed_formula()
    {
        // Check-values 6.10: g0 − δ − F/k; here read back from the sheet's own figures.
        var sheet = Json("gap");
        var clearance = 2.2 - (0.5 * (double)sheet["stroke_pp_mm"]! * 1.5) - (double)sheet["sag_mm"]!;
        Assert.Equal(clearance, (double)sheet["clearance_mm"]!, 0.04);
        Assert.True((double)sheet["clearance_limit_mm"]! < (double)sheet["clearance_mm"]!);
        Assert.Equal((double)sheet["strike_gap_at_limit_mm"]!, 2.2 - (double)sheet["clearance_limit_mm"]!, 1e-6);
    }

    [Fact]
    public void Stroke_goes_with_the_square_of_the_voltage()
    {
        var sheet = Json("voltage");
        Assert.Equal(0.81, (double)sheet["stroke_at_90_percent_mm"]! / (double)sheet["stroke_pp_mm"]!, 5);
        Assert.Equal(1.21, (double)sheet["stroke_at_110_percent_mm"]! / (double)sheet["stroke_pp_mm"]!, 5);
    }

    [Fact]
    public void With_a_magnet_of_its_own_flux_the_stroke_goes_with_the_voltage_itself()
    {
        // Check-values 6.8: (B₀ + B₁ sin)² holds 2 B₀ B₁ at the mains' frequency, which goes with the alternating flux, not with its square.
        var feeder = files.Write("feeder.toml", TuneFiles.Feeder + "\n[supply]\nmagnet = \"biased\"");
        var trials = files.Write("trials.toml", TuneFiles.Trial + "\nvoltage_ratio = 0.9");
        JsonNode Json(params string[] command) => JsonNode.Parse(TuneFiles.Run([.. command, "--feeder", feeder, "--trials", trials, "--json", "-"]).Output)!;
        var sheet = Json("tune", "voltage");
        Assert.Equal(1.5 / 0.9, (double)sheet["stroke_pp_mm"]!, 0.003);
        Assert.Equal(0.9, (double)sheet["stroke_at_90_percent_mm"]! / (double)sheet["stroke_pp_mm"]!, 5);
        Assert.Equal(100 * 1.9 / (double)sheet["stroke_pp_mm"]!, (double)sheet["limit_voltage_percent"]!, 3);
        Assert.Contains("goes with the voltage itself", (string)sheet["notes"]![1]!, StringComparison.Ordinal);
        Assert.Contains("which full voltage would make 1.667 mm", (string)Json("tune", "advise")["because"]![0]!, StringComparison.Ordinal);
        Assert.Contains(Json("tune", "gap")["notes"]!.AsArray(), note => ((string)note!).Contains("flux of its own, which pulls at rest too", StringComparison.Ordinal));
    }

    [Fact]
    public void The_stacks_that_reach_the_band_are_named_and_damping_that_nobody_read_is_said()
    {
        var notes = Json("stacks")["notes"]!.AsArray().Select(note => (string)note!).ToList();
        Assert.Contains(notes, note => note.StartsWith("expected in the band on the normal side, leaves in mm: 3 × 4 + 4 × 3", StringComparison.Ordinal) || note.Contains("1 × 5 + 2 × 4 + 2 × 3", StringComparison.Ordinal));
        const string Unread = "no trial gives a damping ratio";
        Assert.Contains(Json("curve")["notes"]!.AsArray(), note => ((string)note!).StartsWith(Unread, StringComparison.Ordinal));
        Assert.DoesNotContain(Json("curve", TuneFiles.Trial + "\ndamping_ratio = 0.02")["notes"]!.AsArray(), note => ((string)note!).StartsWith(Unread, StringComparison.Ordinal));
    }

    [Fact]
    public void Each_leaf_has_its_own_tone_and_one_on_a_harmonic_is_told()
    {
        // Check-values 7.1 and 7.5: a steel leaf of 3 mm over 150 mm sings at 703.798526 Hz between clamps; 60 Hz × 12 = 720 Hz is 2.25 % away.
        var text = TuneFiles.Feeder.Replace("modulus_gpa = 205", "modulus_gpa = 207", StringComparison.Ordinal).Replace("length_mm = 120", "length_mm = 150", StringComparison.Ordinal);
        Assert.NotEqual(TuneFiles.Feeder, text);
        var sheet = JsonNode.Parse(TuneFiles.Run("tune", "stacks", "--feeder", files.Write("feeder.toml", text), "--json", "-").Output)!;
        var leaf = Assert.Single(sheet["leaves"]!.AsArray(), row => (double)row!["thickness_mm"]! == 3)!;
        Assert.Equal(703.798526, (double)leaf["own_hz"]!, 4);
        Assert.Equal(12, (double)leaf["nearest_harmonic"]!);
        Assert.Equal(100 * ((703.798526 / 720) - 1), (double)leaf["away_percent"]!, 4);
        Assert.Equal(703.798526 * Math.Pow(1.875104068712 / 4.730040744863, 2), (double)leaf["one_end_hz"]!, 4);
        var told = Assert.Single(sheet["notes"]!.AsArray(), note => ((string)note!).Contains("near harmonic", StringComparison.Ordinal));
        Assert.EndsWith(": 3 mm near harmonic 12", (string)told!, StringComparison.Ordinal); // 938 Hz and 1173 Hz lie near the 16th and the 20th.

        var fibre = TuneFiles.Feeder.Replace("modulus_gpa = 205", "modulus_gpa = 40", StringComparison.Ordinal);
        var unknown = JsonNode.Parse(TuneFiles.Run("tune", "stacks", "--feeder", files.Write("feeder.toml", fibre), "--json", "-").Output)!;
        Assert.Null(unknown["leaves"]);
        Assert.Contains(unknown["notes"]!.AsArray(), note => ((string)note!).Contains("density_kg_m3", StringComparison.Ordinal));
        var known = JsonNode.Parse(TuneFiles.Run("tune", "stacks", "--feeder", files.Write("feeder.toml", fibre.Replace("modulus_gpa = 40", "density_kg_m3 = 1900\nmodulus_gpa = 40", StringComparison.Ordinal)), "--json", "-").Output)!;
        Assert.NotEmpty(known["leaves"]!.AsArray());
    }

    [Fact]
    public void A_throw_outside_the_one_hop_model_is_said_and_no_speed_is_told()
    {
        // Check-values 8.4: 60 Hz, 1.524 mm, 20°: throw number 3.777 is outside.
        var sheet = Json("conveying", TuneFiles.Trial.Replace("1.50 mm", "1.524 mm", StringComparison.Ordinal));
        Assert.Equal(3.777010724, (double)sheet["throw_number"]!, 5);
        Assert.Null(sheet["speed_m_s"]);
        Assert.Contains("outside the model", (string)sheet["speed_m_s_reason"]!, StringComparison.Ordinal);
        Assert.Equal(0.2245295786, (double)sheet["speed_ceiling_m_s"]!, 6);
    }

    [Fact]
    public void The_drive_angle_must_come_from_somewhere()
    {
        var feeder = files.Write("feeder.toml", TuneFiles.Feeder.Replace("line_angle_deg = 20", "line_angle_deg = \"auto\"", StringComparison.Ordinal));
        var (status, _, errors) = TuneFiles.Run("tune", "conveying", "--feeder", feeder);
        Assert.Equal(2, status);
        Assert.Contains("--angle-deg", Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.Equal(0, TuneFiles.Run("tune", "conveying", "--feeder", feeder, "--angle-deg", "25").Status);
    }

    [Fact]
    public void Weight_that_brings_the_reverse_side_is_that_of_the_two_mass_formula()
    {
        // Natural frequency 66.1 Hz, drive 60 Hz: the reduced mass may grow by (66.1/60)², less what the running magnet softens (check-values 6.1).
        var sheet = Json("mass");
        var tray = (double)sheet["tray_kg"]!;
        var reduced = tray * 70 / (tray + 70) * Math.Pow(66.1 / 60, 2);
        Assert.Equal((reduced * 70 / (70 - reduced)) - tray, (double)sheet["tray_mass_to_reverse_kg"]!, 1.6);
        Assert.True((double)sheet["tray_mass_to_reverse_low_kg"]! <= (double)sheet["tray_mass_to_reverse_kg"]!);
    }

    [Theory]
    [InlineData("gap", "[air_gap]", "[air_gap] is missing")]
    [InlineData("curve", "[masses]", "[masses] is missing")]
    public void A_table_that_a_sheet_needs_is_named(string name, string table, string expected)
    {
        var text = TuneFiles.Feeder;
        var from = text.IndexOf(table, StringComparison.Ordinal);
        var to = text.IndexOf("\n[", from + 1, StringComparison.Ordinal);
        var (status, _, errors) = TuneFiles.Run("tune", name, "--feeder", files.Write("feeder.toml", to < 0 ? text[..from] : text.Remove(from, to - from)));
        Assert.Equal(2, status);
        Assert.Contains(expected, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
    }

    private JsonNode Json(string name, string trials = TuneFiles.Trial) => JsonNode.Parse(
        TuneFiles.Run("tune", name, "--feeder", files.Write("feeder.toml", TuneFiles.Feeder), "--trials", files.Write("trials.toml", trials), "--json", "-").Output)!;
}
