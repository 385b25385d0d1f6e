using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>What people write through the page in a real browser: the machine book, captures that are kept, baselines put in force again.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class WrittenPagesTests
{
    [SkippableFact]
    public async Task Book_captures_and_baselines_are_written_by_those_whose_they_are_and_the_alarm_says_who_took_each_step()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(TraySensor.Feeder(), more: "[captures]\nfolder = \"captures\"\nbefore_s = 1\nafter_s = 1\n");
        await using var browser = await Browser.Start(run.Folder, "writer", 390, 844);
        await browser.Open(run.Address + "#book");
        await browser.Until("document.querySelector('#book-form form')", 20);
        await Eye.Open(browser);

        // A technician's note needs a sign-in; what was done to the machine is an engineer's.
        await browser.Tell("document.getElementById('book-text').value = 'A rattle at the rear clamp'; document.querySelector('#book-form form button.main').click()");
        await Eye.SignIn(browser, "tom");
        await browser.Until("document.getElementById('book-entries').innerText.includes('A rattle at the rear clamp')", 5);
        Assert.Contains("Tom", await browser.Text("book-entries"), StringComparison.Ordinal);
        Assert.Equal("note", await browser.Tell("[...document.getElementById('book-kind').options].map(one => one.value).join(' ')"));
        await Eye.SignOut(browser);
        await browser.Tell("const kind = document.getElementById('book-kind'); kind.value = 'leaf-set'; kind.dispatchEvent(new Event('change'))");
        Assert.Contains("isolate, lock and tag", await browser.Text("book-form"), StringComparison.Ordinal);
        await browser.Tell("document.getElementById('book-rear').value = 'many'; document.querySelector('#book-form form button.main').click()");
        await Eye.SignIn(browser, "erika");
        await browser.Until("document.querySelector('#book-form .trouble').innerText.includes('is no stack')", 5);
        await browser.Tell("document.getElementById('book-rear').value = '5x4.0'; document.querySelector('#book-form form button.main').click()");
        await browser.Until("document.getElementById('book-entries').innerText.includes('rear 5 \u00d7 4 mm')", 5);
        await browser.Tell("document.querySelector('#book-remind details').open = true; document.getElementById('remind-hours').value = '500'; document.querySelector('#book-remind form button.main').click()");
        await browser.Until("document.getElementById('book-reminders').innerText.includes('Inspection: later')", 5);
        await Eye.SeeAtBothSizes(browser, "written-book");

        // An alarm leaves a capture, which is kept; its row says who took each step.
        run.Sensor.Unplug();
        await browser.Tell("location.hash = 'alarms'");
        await browser.Until("document.querySelector('li[data-alarm=sensor-lost] button[data-act=acknowledge]')", 10);
        await browser.Until("document.getElementById('alarm-steps').innerText.includes('came up')", 8);
        await browser.Tell("document.querySelector('li[data-alarm=sensor-lost] button[data-act=acknowledge]').click()");
        await browser.Until("document.querySelector('li[data-alarm=sensor-lost] .steps')?.innerText.includes('acknowledged')", 5);
        var steps = await browser.Tell("document.querySelector('li[data-alarm=sensor-lost] .steps').innerText");
        Assert.Matches(@"came up \S+, measurement\s+acknowledged \S+, Erika", steps);
        await browser.Until("[...document.querySelectorAll('#alarm-steps tr')].map(row => row.innerText).filter(text => /acknowledged\\s+Erika/.test(text)).length === 1", 8);
        Assert.Equal("1", await browser.Tell("[...document.querySelectorAll('#alarm-steps tr')].filter(row => row.innerText.includes('came up')).length"));
        await Eye.SeeAtBothSizes(browser, "written-alarm-steps");
        await browser.Tell("location.hash = 'captures'");
        await browser.Until("[...document.querySelectorAll('#capture-list button')].some(one => one.innerText === 'Keep')", 20);
        await browser.Tell("[...document.querySelectorAll('#capture-list button')].find(one => one.innerText === 'Keep').click()");
        await browser.Until("document.getElementById('keep-reason')", 2);
        await browser.Tell("document.getElementById('keep-reason').value = 'the cable that was pulled'; document.querySelector('dialog button.main').click()");
        await browser.Until("document.getElementById('capture-list').innerText.includes('Erika: the cable that was pulled')", 5);
        Assert.Single(Directory.GetFiles(run.Folder.At("captures"), "*-sensor-lost.keep"));
        await Eye.SeeAtBothSizes(browser, "written-captures-kept");
        await browser.Tell("[...document.querySelectorAll('#capture-list button')].find(one => one.innerText === 'Let go').click()");
        await browser.Until("[...document.querySelectorAll('#capture-list button')].some(one => one.innerText === 'Keep')", 5);
        Assert.Empty(Directory.GetFiles(run.Folder.At("captures"), "*.keep"));

        // Two baselines are told at a terminal; the first is taken again on the page.
        foreach (var stroke in (string[])["stroke_mm=1.715,0.01", "stroke_mm=1.60,0.01"])
        {
            Assert.Equal(0, (await Running.Run(run.Folder.Path, "baseline", "tell", "--feeder", "cullet.toml", "--feature", stroke)).Status);
        }

        await browser.Tell("location.hash = 'check'");
        await browser.Until("document.querySelectorAll('#baseline-list > li').length === 2", 5);
        await browser.Tell("document.querySelector('#baseline-list button').click()");
        await browser.Tell("document.getElementById('baseline-note').value = 'a clamp was loose'; document.querySelector('dialog button.main').click()");
        await browser.Until("document.querySelector('#baseline-list > li')?.innerText.includes('Version 3') && document.querySelector('#baseline-list > li').innerText.includes('in force')", 5);
        Assert.Contains("version 1 again: Erika: a clamp was loose", await browser.Text("baseline-list"), StringComparison.Ordinal);
        await Eye.SeeAtBothSizes(browser, "written-baselines");

        using var client = new HttpClient { BaseAddress = new(run.Address) };
        var document = JsonNode.Parse(await client.GetStringAsync("api/v1/openapi.json"))!;
        var schema = new Schema(document);
        foreach (var path in (string[])["/api/v1/book", "/api/v1/baselines", "/api/v1/captures", "/api/v1/status", "/api/v1/health"])
        {
            Assert.Empty(schema.Faults(JsonNode.Parse(await client.GetStringAsync(path[1..])), document["paths"]![path]!["get"]!["responses"]!["200"]!["content"]!["application/json"]!["schema"]!));
        }
    }
}
