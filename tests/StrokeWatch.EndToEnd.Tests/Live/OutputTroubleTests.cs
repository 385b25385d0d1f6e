using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>Each output that cannot do its work is an alarm of the daemon, and its trouble is told by the page's health.</summary>
[SupportedOSPlatform("linux")]
public sealed partial class OutputTroubleTests : IDisposable
{
    private readonly TrayBench bench = new();

    public void Dispose() => bench.Dispose();

    [SkippableTheory]
    [InlineData("relay", "line = 17\nchip = 255", AlarmKind.OutputTrouble, "the relay fails")]
    [InlineData("webhook", "url = \"http://127.0.0.1:1/alarms\"\nsecret_file = \"secret\"", AlarmKind.OutputTrouble, "posting to the webhook fails")]
    [InlineData("captures", "folder = \"no-folder/captures\"", AlarmKind.StoreTrouble, "waveforms of alarms cannot be kept")]
    public async Task An_output_that_cannot_do_its_work_is_an_alarm_and_the_page_says_what_is_wrong(string table, string lines, AlarmKind kind, string words)
    {
        bench.Folder.Write("no-folder", "a file stands where a folder should be");
        File.SetUnixFileMode(bench.Folder.Write("secret", "a-long-secret-of-the-sand-works"), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        bench.Configure($"""
            [alarms]
            lost_after_s = 1
            [page]
            listen = "127.0.0.1:0"
            [{table}]
            {lines}
            """);
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var address = await daemon.Until(() => Told().Match(daemon.Out) is { Success: true } match ? match.Groups[1].Value : null, "address of the page");

        // Without an alarm there is nothing to post.
        bench.Sensor.Unplug();
        var alarm = await daemon.Until(() => Database.Alarm(bench.Folder.At("store.db"), kind, raised: true), $"alarm of {table} in the database");
        Assert.Contains(words, alarm.Transition.Words, StringComparison.Ordinal);
        using var client = new HttpClient { BaseAddress = new(address) };
        var health = JsonNode.Parse(await client.GetStringAsync("api/v1/health"))!;
        var trouble = table == "webhook" ? (string?)health["outputs"]![0]!["trouble"] : (string?)health[table]!["trouble"];
        Assert.False(string.IsNullOrEmpty(trouble));
        var status = JsonNode.Parse(await client.GetStringAsync("api/v1/status"))!;
        Assert.Contains(status["alarms"]!.AsArray(), one => (string)one!["id"]! == (kind == AlarmKind.StoreTrouble ? "store-trouble" : "output-trouble") && (bool)one["stands"]!);
    }

    [GeneratedRegex(@"Page: (http://127\.0\.0\.1:\d+/)\s")]
    private static partial Regex Told();
}
