using System.Globalization;
using System.Text;
using System.Text.Json;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Mqtt;

public sealed class MqttJsonTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, 250, TimeSpan.Zero);

    [Theory]
    [InlineData("Sand feeder", "sand-feeder")]
    [InlineData("Bin 4 / +dosing# ", "bin-4-dosing")]
    [InlineData("Scherben-Rüttler №2", "scherben-r-ttler-2")]
    [InlineData("", "feeder")]
    [InlineData("±±", "feeder")]
    public void A_name_is_made_fit_for_a_topic(string name, string slug) => Assert.Equal(slug, MqttSlug.Of(name));

    /// <summary>1.62 mm at 90 % of full voltage is 2 mm at full (square of the voltage, check-values 6.9); 2/25.4 = 0.078740.</summary>
    [Fact]
    public void The_supply_s_voltage_comes_with_the_stroke_where_there_is_a_channel_for_it_and_with_a_reason_where_it_is_missing()
    {
        static JsonElement Supplied(SupplyReading? supply)
        {
            var reading = StoreFolder.Reading(0, 1.62e-3) with { Supply = supply };
            return JsonDocument.Parse(MqttJson.Stroke("Sand feeder", Noon, reading, Verdict.Low, SupplyNow.Of(reading, DemoScenario.Feeder with { Supply = new() { FullVolts = 230 } }))).RootElement;
        }

        var whole = Supplied(new() { RmsVolts = 207, MainsVolts = 207, FundamentalVolts = 206.5, PhaseDegrees = -41.25, ConductionShare = 1 });
        Assert.Equal(
            (207, 207, -41.25, 2, 0.07874),
            (whole.GetProperty("supply_rms_v").GetDouble(), whole.GetProperty("supply_mains_v").GetDouble(), whole.GetProperty("supply_phase_deg").GetDouble(),
            whole.GetProperty("full_voltage_pp_mm").GetDouble(), whole.GetProperty("full_voltage_pp_in").GetDouble()));
        Assert.Equal(JsonValueKind.Null, whole.GetProperty("supply_reason").ValueKind);

        var missing = Supplied(new() { Reason = "samples of the voltage are missing" });
        Assert.All((string[])["supply_rms_v", "supply_mains_v", "supply_phase_deg", "full_voltage_pp_mm", "full_voltage_pp_in"], key => Assert.Equal(JsonValueKind.Null, missing.GetProperty(key).ValueKind));
        Assert.Equal("samples of the voltage are missing", missing.GetProperty("supply_reason").GetString());
        Assert.DoesNotContain(Supplied(null).EnumerateObject(), property => property.Name.StartsWith("supply", StringComparison.Ordinal) || property.Name.StartsWith("full", StringComparison.Ordinal));
    }

    [Fact]
    public void Messages_are_plain_json_whatever_the_culture()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(
                """{"feeder":"Sand feeder","utc":"2026-03-29T12:00:00.250Z","pp_mm":1.65,"pp_in":0.064961,"uncertainty_mm":null,"frequency_hz":50.02,"verdict":"in-band","quality":"good","motion":"running","strike":false,"reason":null}""",
                Encoding.UTF8.GetString(MqttJson.Stroke(
                    "Sand feeder", Noon, StoreFolder.Reading(0, 1.65e-3) with { UncertaintyMetres = double.NaN, FrequencyHz = 50.02 }, Verdict.InBand)));
            Assert.Equal(
                """{"status":"online","feeder":"Sand feeder","utc":"2026-03-29T12:00:00.250Z","alarms_held":3,"reason":null}""",
                Encoding.UTF8.GetString(MqttJson.Status("Sand feeder", online: true, Noon, 3, null)));
            var row = new WaitingRow(7, Noon.ToUnixTimeMilliseconds(), [new("feeder", "Sand feeder"), new("at_s", 3.0), new("kind", "strike"), new("raised", 0L), new("words", "Over.")]);
            Assert.Equal(
                """{"id":"1774785600250-7","feeder":"Sand feeder","utc":"2026-03-29T12:00:00.250Z","kind":"strike","raised":false,"pp_mm":null,"pp_in":null,"words":"Over."}""",
                Encoding.UTF8.GetString(MqttJson.Alarm(row)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
