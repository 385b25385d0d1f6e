using System.Globalization;
using System.Text;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Mqtt;
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
