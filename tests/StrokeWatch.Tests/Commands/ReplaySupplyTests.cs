using System.Globalization;
using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>Captures with the supply's voltage, simulated, replayed and held against what the machine truly did.</summary>
public sealed class ReplaySupplyTests : IDisposable
{
    private const string Drive = "supply_hz = 50\nstrokes_per_cycle = {0}\n";
    private const string Band = "low = \"1.65 mm\"\nhigh = \"1.78 mm\"\nlimit = \"1.90 mm\"\n";
    private const string Gap = "[feeder.air_gap]\nrest_mm = 2.6\n";

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    /// <summary>At full voltage the machine truly moves 1.715 mm. With a constant gap the square holds to the noise; a gap that moves with the stroke takes it 1.6 % off at 85 %, and the stated uncertainty covers that.</summary>
    [Theory]
    [InlineData(85, 1, "", "csv", 5e-4)]
    [InlineData(95, 1, "", "wav", 5e-4)]
    [InlineData(105, 2, "", "wav", 5e-4)]
    [InlineData(85, 1, Gap, "wav", 0.02)]
    [InlineData(95, 2, Gap, "csv", 0.008)]
    [InlineData(105, 1, Gap, "wav", 0.008)]
    public void The_stroke_is_brought_to_full_voltage(int percent, int strokes, string gap, string kind, double off)
    {
        var (_, document, text, truth) = Run(strokes, gap, $"voltage_percent = {percent}", "full_voltage_v = 230\nscale_v = 50", kind);
        var (stroke, supply) = (document["stroke"]!, document["supply"]!);
        Assert.Equal((double)truth["stroke"]!["pp_mm"]!, (double)stroke["pp_mm"]!, 2e-3);
        Assert.Equal((double)truth["supply"]!["voltage_v"]!, (double)supply["voltage_v"]!, 0.1);
        Assert.Equal("channel", (string)supply["voltage_from"]!);
        Assert.Equal(percent / 100.0, (double)supply["share_of_full"]!, 5e-4);
        Assert.InRange(Math.Abs(((double)stroke["full_voltage_pp_mm"]! / 1.715) - 1), 0, off);
        Assert.InRange(Math.Abs((double)stroke["full_voltage_pp_mm"]! - 1.715), 0, (double)stroke["full_voltage_uncertainty_mm"]!);
        Assert.Equal("in-band", (string)stroke["full_voltage_verdict"]!);
        Assert.Equal(percent < 100 ? "low" : percent == 105 && gap.Length > 0 ? "over-stroke" : "high", (string)stroke["verdict"]!);
        Assert.Contains("the voltage puts it out, not the machine", text, StringComparison.Ordinal);
        Assert.Contains("in the band", text, StringComparison.Ordinal);

        // The sensor's filter of two poles, from 0.35 of the rate, lags by about √2·f/f₀ radians; the voltage has none.
        var lag = Math.Sqrt(2) * 50 * strokes / (0.35 * 3200) * 180 / Math.PI;
        Assert.Equal(0, Math.IEEERemainder((double)supply["phase_deg"]! + lag - (double)truth["supply"]!["phase_deg"]!, 360), 0.3);
        Assert.InRange(lag, 0, (double)supply["phase_uncertainty_deg"]!);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_lag_of_a_filter_that_the_feeder_file_names_is_taken_off(int strokes)
    {
        var (_, document, text, truth) = Run(strokes, "", "", "full_voltage_v = 230\nscale_v = 50", "wav", sensor: "[sensor]\nbandwidth_hz = 1120\nbandwidth_poles = 2\n");
        var apart = Math.IEEERemainder((double)document["supply"]!["phase_deg"]! - (double)truth["supply"]!["phase_deg"]!, 360);
        Assert.Equal(0, apart, 0.3);
        Assert.InRange((double)document["supply"]!["phase_uncertainty_deg"]!, Math.Abs(apart), 1);
        Assert.Contains("° ± 0.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_magnet_with_a_flux_of_its_own_goes_with_the_voltage_itself_where_the_gap_is_constant_and_says_how_badly_else()
    {
        const string biased = "kind = \"magnet-biased\"\nvoltage_percent = 90", file = "full_voltage_v = 230\nscale_v = 50\nmagnet = \"biased\"";
        var constant = Run(1, "", biased, file, "wav").Document["stroke"]!;
        Assert.Equal(1.715, (double)constant["full_voltage_pp_mm"]!, 0.015);
        var moving = Run(1, Gap, biased, file, "wav").Document["stroke"]!;
        Assert.InRange(Math.Abs((double)moving["full_voltage_pp_mm"]! - 1.715), 0, (double)moving["full_voltage_uncertainty_mm"]!);
    }

    [Theory]
    [InlineData(1, 0, true)]
    [InlineData(1, 60, false)]
    [InlineData(1, 120, false)]
    [InlineData(2, 100, false)]
    [InlineData(2, 115, false)]
    [InlineData(2, 130, false)]
    [InlineData(2, 150, false)]
    public void A_channel_at_the_coil_shows_the_firing_angle_and_a_late_one_is_not_brought_to_full(int strokes, int firing, bool told)
    {
        var (_, document, text, truth) = Run(strokes, "", $"firing_deg = {firing}", "full_voltage_v = 230\nscale_v = 50", "wav", "at = \"coil\"");
        var supply = document["supply"]!;
        Assert.True(supply["firing_angle_deg"] is not null && supply["share_of_full"] is not null, supply.ToJsonString());
        Assert.Equal((double)truth["supply"]!["voltage_v"]!, (double)supply["voltage_v"]!, 4.0);
        Assert.InRange(Math.Abs((double)supply["firing_angle_deg"]! - firing), 0, (double)supply["firing_angle_uncertainty_deg"]! + 2);
        Assert.InRange((double)supply["conduction_share"]!, 0.1, 0.9);
        Assert.Equal(1, (double)supply["share_of_full"]!, 0.04);
        Assert.Equal(told, document["stroke"]!["full_voltage_pp_mm"] is not null);
        Assert.Equal(!told, text.Contains("the controller cuts the voltage (it fires at", StringComparison.Ordinal));
    }

    [Fact]
    public void A_voltage_that_was_entered_serves_where_none_is_captured_and_the_option_wins()
    {
        var (_, document, _, _) = Run(1, "", "voltage_percent = 95", "full_voltage_v = 230\nvoltage_v = 218.5", "csv", channel: false);
        Assert.Equal(("entered", 218.5), ((string)document["supply"]!["voltage_from"]!, (double)document["supply"]!["voltage_v"]!));
        Assert.Equal(1.715, (double)document["stroke"]!["full_voltage_pp_mm"]!, 2e-3);
        Assert.Null(document["supply"]!["phase_deg"]);
        Assert.Contains("entered, not captured", (string)document["supply"]!["reason"]!, StringComparison.Ordinal);
        var (_, other, _) = Replay("csv", "--supply-voltage-v", "207");
        Assert.Equal(0.9, (double)other["supply"]!["share_of_full"]!, 1e-6);
        var (_, out_of_range, _) = Replay("csv", "--supply-voltage-v", "150");
        Assert.Null(out_of_range["stroke"]!["full_voltage_pp_mm"]);
        Assert.Contains("65.2 % of full", (string)out_of_range["supply"]!["reason"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_document_without_a_word_of_the_supply_has_none_of_its_keys_and_a_channel_without_full_voltage_says_what_is_missing()
    {
        var (_, document, text, _) = Run(1, "", "", null, "wav", channel: false);
        Assert.Null(document["supply"]);
        Assert.False(document["stroke"]!.AsObject().ContainsKey("full_voltage_pp_mm"));
        Assert.DoesNotContain("supply     ", text, StringComparison.Ordinal);
        var (_, known, _, _) = Run(1, "", "", null, "wav");
        Assert.Equal(4.6, (double)known["supply"]!["voltage_v"]!, 0.01);
        Assert.Contains("full_voltage_v is missing in [supply]", (string)known["supply"]!["reason"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_person_reads_it_under_a_decimal_comma_in_millimetres_and_inches_and_on_the_page()
    {
        var culture = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (comma.NumberFormat.NumberDecimalSeparator, comma.NumberFormat.NumberGroupSeparator) = (",", ".");
            CultureInfo.CurrentCulture = comma;
            var page = Path.Combine(folder, "page.html");
            var (status, _, text, _) = Run(1, "", "voltage_percent = 95", "full_voltage_v = 230\nscale_v = 50", "wav", more: ["--report", page]);
            Assert.Equal(1, status);
            Assert.Contains("supply     218.5 V true rms, captured, 95.0 % of full voltage, the tray moves", text, StringComparison.Ordinal);
            Assert.Matches(@"at full    1\.71\d mm \(0\.067\d in\) ± 0\.\d+ mm \(0\.\d+ in\) peak to peak at full voltage, k = 2, by the square of the voltage", text);
            var html = File.ReadAllText(page);
            Assert.Contains("Stroke at full voltage", html, StringComparison.Ordinal);
            Assert.Contains("the voltage puts it out, not the machine", html, StringComparison.Ordinal);
            Assert.DoesNotContain("218,5", html + text, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    private (int Status, JsonNode Document, string Text, JsonNode Truth) Run(
        int strokes, string gap, string supply, string? feeder, string kind, string at = "", bool channel = true, string[]? more = null, string sensor = "")
    {
        var drive = string.Format(CultureInfo.InvariantCulture, Drive, strokes);
        File.WriteAllText(Path.Combine(folder, "sand.feeder.toml"), $"[drive]\n{drive}[stroke]\n{Band}{(feeder is null ? "" : $"[supply]\n{feeder}\n")}{sensor}");
        File.WriteAllText(Path.Combine(folder, "sand.toml"),
            $"[feeder.drive]\n{drive}[feeder.stroke]\n{Band}{gap}[run]\nduration_s = 3\n[machine]\ntuning_ratio = 1.06\n[sensor]\nrange_g = 100\nnoise_g = 0.005\n[supply]\n{supply}\n"
            + (channel ? $"[supply_channel]\nnoise_v = 1\nscale_v = 50\n{at}\n" : ""));
        using var error = new StringWriter();
        Assert.Equal((0, ""), (SimulateCommand.Run(Path.Combine(folder, "sand.toml"), Path.Combine(folder, $"sand.{kind}"), error), error.ToString()));
        var (status, document, text) = Replay(kind, more ?? []);
        return (status, document, text, JsonNode.Parse(File.ReadAllText(Path.Combine(folder, "sand.truth.json")))!);
    }

    private (int Status, JsonNode Document, string Text) Replay(string kind, params string[] more)
    {
        using StringWriter output = new(), error = new();
        using var raw = new MemoryStream();
        var json = Path.Combine(folder, "out.json");
        var status = CommandLine.Run(
            ["replay", Path.Combine(folder, $"sand.{kind}"), "--feeder", Path.Combine(folder, "sand.feeder.toml"), "--json", json, .. more],
            new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        Assert.Equal("", error.ToString());
        return (status, JsonNode.Parse(File.ReadAllText(json))!, output.ToString());
    }
}
