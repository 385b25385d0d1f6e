using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The sensor's plug is pulled while a phone and a control-room screen look on, and put back.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class PulledSensorTests(ITestOutputHelper output)
{
    /// <summary>Notes twenty times a second what a person would take the page to say.</summary>
    private const string Watching = """
        window.seen = [];
        setInterval(() => window.seen.push({
            at: Date.now(),
            old: document.body.classList.contains('stale') && document.getElementById('now').classList.contains('stale') && document.getElementById('age').innerText !== '',
            says: document.getElementById('age').innerText,
            running: document.getElementById('motion').innerText,
            verdict: document.getElementById('verdict').innerText,
            lost: [...document.querySelectorAll('#alarm-list li.stands')].some(row => row.dataset.alarm === 'sensor-lost'),
        }), 50); ''
        """;

    [SkippableFact]
    public async Task A_sensor_that_is_pulled_looks_old_within_two_seconds_is_then_an_alarm_never_well_and_goes_on_when_it_is_back()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(TraySensor.Feeder());
        await using var phone = await Browser.Start(run.Folder, "phone", 390, 844);
        await using var wide = await Browser.Start(run.Folder, "wide", 1600, 900);
        Browser[] both = [phone, wide];
        foreach (var browser in both)
        {
            await browser.Open(run.Address);
            await browser.Until("document.getElementById('verdict')?.innerText === 'In the band' && !document.body.classList.contains('stale')", 30);
            await browser.Tell(Watching);
        }

        var again = TraySensor.Feeder();
        await Task.Delay(1500);
        run.Sensor.Unplug();
        var pulled = Now();
        foreach (var browser in both)
        {
            await browser.Until("document.querySelector('#alarm-list li[data-alarm=sensor-lost].stands')", 10);
        }

        await Task.Delay(1500);
        foreach (var browser in both)
        {
            Assert.Contains("Nothing from the sensor", await browser.Text("age"), StringComparison.Ordinal);
            Assert.Equal("Running? Not known", await browser.Text("motion"));
            Assert.NotEqual("In the band", await browser.Text("verdict"));
            Assert.DoesNotContain("1.7", await browser.Tell("document.title"), StringComparison.Ordinal);
        }

        await Keep(phone, wide, "pulled");
        await phone.Tell("location.hash = 'station'");
        await phone.Until("document.getElementById('station-sensors').innerText.includes('No samples for')", 5);
        await Keep(phone, wide, "pulled-station");
        await phone.Tell("location.hash = 'now'");

        run.Sensor.PlugFrames(again, startNumber: 2);
        var back = Now();
        foreach (var browser in both)
        {
            await browser.Until("!document.body.classList.contains('stale') && document.getElementById('verdict').innerText === 'In the band' && document.getElementById('motion').innerText === 'Running'", 15);
            await browser.Until("document.querySelector('#alarm-list li[data-alarm=sensor-lost]:not(.stands)')?.innerText.includes('over, not acknowledged')", 5);
        }

        await Keep(phone, wide, "plugged-again");
        foreach (var (browser, name) in both.Zip(["phone", "wide"]))
        {
            var seen = JsonNode.Parse(await browser.Tell("JSON.stringify(window.seen)"))!.AsArray().Select(one => (
                At: (long)one!["at"]!, Old: (bool)one["old"]!, Says: (string)one["says"]!, Verdict: (string)one["verdict"]!, Lost: (bool)one["lost"]!)).ToList();
            Assert.All(seen.Where(one => one.At < pulled - 100), one => Assert.False(one.Old, one.Says));
            var old = seen.First(one => one.At >= pulled && one.Old);
            var lost = seen.First(one => one.At >= pulled && one.Lost);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: old {old.At - pulled} ms, alarm {lost.At - pulled} ms after the plug was pulled"));
            Assert.InRange(old.At - pulled, 0, 2000);
            Assert.InRange(lost.At - pulled, 0, 4000);

            // Until samples come again nothing says that the feeder is well.
            var silent = seen.Where(one => one.At >= pulled + 2000 && one.At < back).ToList();
            Assert.NotEmpty(silent);
            Assert.All(silent, one => Assert.True(one.Old && one.Verdict != "In the band", $"{one.At - pulled} ms: {one.Verdict}, {one.Says}"));
        }
    }

    private static long Now() => DateTimeOffset.UtcNow.ToUnixTimeMilliseconds();

    /// <summary>Pictures are taken only for a person who wants to look at them.</summary>
    private static async Task Keep(Browser phone, Browser wide, string name)
    {
        if (Environment.GetEnvironmentVariable("STROKEWATCH_PICTURES") is { Length: > 0 } folder)
        {
            await phone.Picture(Path.Combine(folder, $"{name}-phone.png"));
            await wide.Picture(Path.Combine(folder, $"{name}-wide.png"));
        }
    }
}
