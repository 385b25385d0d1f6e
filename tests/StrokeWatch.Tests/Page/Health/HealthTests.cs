using System.Text.Json.Nodes;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Tests.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Health;

/// <summary>What the station's health says of outputs, relay and waveforms of alarms.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class HealthTests
{
    [Fact]
    public async Task The_trouble_of_every_output_the_relay_and_the_captures_is_told_with_what_to_do()
    {
        using var page = new ServedPage(sees: sight => sight with
        {
            Outputs = [new("webhook", () => new(7, 3, 1, 0, null, "Webhook cannot be reached: check the network"))],
            Relay = () => new("gpiochip0, line 17", null, "Relay: no such chip"),
            Shelf = () => new("captures", new(4, 5_000_000, 1, 1_000_000), 200_000_000, 1, "waveforms of alarms cannot be kept"),
        });
        var health = await Health(page);
        var webhook = Assert.Single(health["outputs"]!.AsArray())!;
        Assert.Equal(("webhook", 7, 3, "Webhook cannot be reached: check the network"), ((string)webhook["name"]!, (int)webhook["sent_rows"]!, (int)webhook["held_rows"]!, (string)webhook["trouble"]!));
        Assert.Equal(("gpiochip0, line 17", "Relay: no such chip"), ((string)health["relay"]!["line"]!, (string)health["relay"]!["trouble"]!));
        Assert.Null(health["relay"]!["energised"]);
        var captures = health["captures"]!;
        Assert.Equal((4, 5_000_000, 1, 1_000_000, 200_000_000, 1, "waveforms of alarms cannot be kept"), (
            (int)captures["captures"]!, (int)captures["size_bytes"]!, (int)captures["kept"]!, (int)captures["kept_bytes"]!, (int)captures["quota_bytes"]!, (int)captures["writing"]!, (string)captures["trouble"]!));
        var metrics = await page.Client.GetStringAsync("metrics");
        Assert.All((string[])["webhook", "relay", "captures"], name => Assert.Contains($"strokewatch_output_trouble{{feeder=\"Sand feeder\",output=\"{name}\"}} 1\n", metrics, StringComparison.Ordinal));
        Assert.DoesNotContain("strokewatch_relay_energised{", metrics, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_configured_is_null_and_what_is_well_has_no_trouble()
    {
        using var none = new ServedPage();
        var health = await Health(none);
        Assert.Null(health["relay"]);
        Assert.Null(health["captures"]);
        using var well = new ServedPage(sees: sight => sight with { Relay = () => new("gpiochip0, line 17", true, null), Shelf = () => new("captures", null, 200_000_000, 0, null) });
        health = await Health(well);
        Assert.True((bool)health["relay"]!["energised"]!);
        Assert.Null(health["relay"]!["trouble"]);
        Assert.Null(health["captures"]!["captures"]);
        Assert.Contains("strokewatch_relay_energised{feeder=\"Sand feeder\"} 1\n", await well.Client.GetStringAsync("metrics"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_figures_of_the_week_name_what_chatters_what_stands_too_long_and_floods_by_the_check_values()
    {
        // Check-values 5.4 (from memory of IEC 62682): three announcements in a minute chatter; more than ten in ten minutes are a flood.
        using var page = new ServedPage();
        for (var i = 0; i < 12; i++)
        {
            page.Raise(AlarmKind.HighStroke);
            page.Raise(AlarmKind.HighStroke, raised: false);
            await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
            await ServedPage.Answer(ServedPage.Post(page.Client, "api/v1/alarms/high-stroke/acknowledge"));
        }

        var alarms = (await Health(page))["alarms"]!;
        Assert.Equal((12, 1), ((int)alarms["announced"]!, (int)alarms["floods"]!));
        Assert.Equal("high-stroke", (string)Assert.Single(alarms["chattering"]!.AsArray())!["alarm"]!);
        Assert.Equal((12, 12), ((int)alarms["most_frequent"]![0]!["times"]!, (int)alarms["priorities"]!["medium"]!));
        Assert.Empty(alarms["stale"]!.AsArray());
    }

    private static async Task<JsonNode> Health(ServedPage page) => JsonNode.Parse(await page.Client.GetStringAsync("api/v1/health"))!;
}
