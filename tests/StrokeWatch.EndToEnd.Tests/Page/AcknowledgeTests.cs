using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>An operator with a phone: over-stroke arises, is acknowledged, and goes back to normal.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class AcknowledgeTests(ITestOutputHelper output)
{
    [SkippableFact]
    public async Task Over_stroke_arises_is_acknowledged_by_an_operator_who_signs_in_on_a_phone_and_is_reset_when_it_is_over()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(new SimulatedFeederSource(new FeederScenario
        {
            Name = "A cullet feeder whose supply swells for a while",
            Feeder = DemoScenario.Feeder,
            DurationSeconds = double.PositiveInfinity,
            Stroke = Length.FromMillimetres(1.71),
            Supply = new() { Voltage = [(0, 100), (14, 100), (15, 107.5), (34, 107.5), (35, 100)] },
            Sensor = new() { RateHz = TraySensor.RateHz, NoiseG = 0.03 },
        }));
        await using var phone = await Browser.Start(run.Folder, "phone", 390, 844);
        await phone.Open(run.Address + "#alarms");
        await phone.Until("document.querySelector('#access button')?.innerText === 'Sign in'", 20);
        await Eye.Open(phone);
        Assert.Equal("true", await phone.Tell("String(document.getElementById('alarms-note').hidden)"));

        await phone.Until("document.getElementById('danger').innerText.includes('Over-stroke. Stop the feeder.')", 30);
        await phone.Until("document.querySelector('li[data-alarm=over-stroke] button[data-act=acknowledge]')", 2);
        Assert.Equal("true", await phone.Tell("String([...document.querySelectorAll('#alarm-list button')].every(one => one.getBoundingClientRect().height >= 48))"));
        await Picture(phone, "alarm");
        await phone.Tell("document.querySelector('li[data-alarm=over-stroke] button[data-act=acknowledge]').click()");
        await phone.Until("document.querySelector('dialog #access-name')", 2);
        Assert.Contains("Stop the feeder", await phone.Tell("document.querySelector('dialog').innerText"), StringComparison.Ordinal);
        await phone.Tell("document.getElementById('access-name').value = 'olga'");
        await phone.Tell("document.getElementById('access-password').value = 'four blue tray'");
        await phone.Tell("document.querySelector('dialog form button.main').click()");
        await phone.Until("document.querySelector('dialog .trouble').innerText === 'Name and password do not fit.'", 10);
        await Picture(phone, "sign-in");
        await phone.Tell($"document.getElementById('access-password').value = '{StaffedRun.Password}'");
        await phone.Tell("document.querySelector('dialog form button.main').click()");
        var watch = Stopwatch.StartNew();
        await phone.Until("document.querySelector('li[data-alarm=over-stroke]').innerText.includes('stands, acknowledged')", 5);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"acknowledged {watch.Elapsed.TotalSeconds:0.00} s after the password was sent"));
        Assert.Equal("Olga · operator", await phone.Tell("document.querySelector('#access button').innerText"));
        await Picture(phone, "acknowledged");

        // What can be put aside says until when before it is done.
        await phone.Tell("document.querySelector('li[data-alarm=over-stroke] button[data-act=shelve]').click()");
        await phone.Until("document.querySelector('dialog .times')", 2);
        Assert.Equal("3", await phone.Tell("document.querySelectorAll('dialog .times button').length"));
        Assert.Equal("true", await phone.Tell("String(document.querySelector('dialog .row button.main').disabled)"));
        await phone.Tell("document.querySelector('dialog .times button[data-minutes=\"30\"]').click(); document.querySelector('dialog .reasons button').click()");
        Assert.Matches(@"^Put aside until \d\d:\d\d$", await phone.Tell("document.querySelector('dialog .row button.main').innerText"));
        Assert.Equal("true", await phone.Tell("String([...document.querySelectorAll('dialog button')].every(one => one.getBoundingClientRect().height >= 48))"));
        Assert.Equal("true", await phone.Tell("String(document.querySelector('dialog').getBoundingClientRect().bottom <= innerHeight)"));
        await Picture(phone, "shelve");
        await phone.Tell("document.querySelector('dialog .row button:not(.main)').click()");

        await phone.Until("document.querySelector('li[data-alarm=over-stroke]').innerText.includes('kept until reset')", 40);
        await phone.Until("document.querySelector('li[data-alarm=over-stroke] button[data-act=reset]')", 2);
        await Picture(phone, "over");
        await phone.Tell("document.querySelector('li[data-alarm=over-stroke] button[data-act=reset]').click()");
        await phone.Until("document.querySelector('li[data-alarm=over-stroke]') === null && document.getElementById('danger').innerText === ''", 5);
        await Picture(phone, "normal");

        using var client = new HttpClient { BaseAddress = new(run.Address) };
        var steps = JsonNode.Parse(await client.GetStringAsync("api/v1/alarms"))!["steps"]!.AsArray().Where(step => (string)step!["alarm"]! == "over-stroke").ToList();
        Assert.Equal([("activate", "measurement"), ("acknowledge", "Olga"), ("clear", "measurement"), ("reset", "Olga")], steps.Select(step => ((string)step!["act"]!, (string)step["by"]!)));
        Assert.Contains("Page: Olga signed in as operator from 127.0.0.1", run.Said, StringComparison.Ordinal);
        Assert.Contains("Page: sign-in refused for Olga from 127.0.0.1", run.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("four blue", run.Said, StringComparison.Ordinal);
        var schema = new Schema(JsonNode.Parse(await client.GetStringAsync("api/v1/openapi.json"))!);
        Assert.Empty(schema.Faults(JsonNode.Parse(await phone.Tell("fetch('/api/v1/session').then(answer => answer.text())")), new JsonObject { ["$ref"] = "#/components/schemas/Session" }));
    }

    private static Task Picture(Browser phone, string name) => Eye.See(phone, $"access-{name}");
}
