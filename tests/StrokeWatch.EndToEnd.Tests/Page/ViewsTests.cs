using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>Every view in a real browser: on a phone and on a wide screen, light and dark, read by axe-core.</summary>
[Collection(RealTime.Name)]
public sealed class ViewsTests
{
    /// <summary>Each view, and what must be seen before it counts as shown.</summary>
    private static readonly (string Name, string Shown)[] Views =
    [
        ("now", "document.querySelector('#drawing .hand')"),
        ("alarms", "document.getElementById('alarms-none').innerText || document.querySelector('#alarm-list li')"),
        ("check", "document.getElementById('check-now').innerText"),
        ("trend", "document.querySelector('#trend-plot canvas') && document.getElementById('trend-says').innerText"),
        ("waveform", "document.querySelector('#wave-plot canvas') && document.querySelector('#path-side .whole') && document.querySelector('#order-plot canvas')"),
        ("captures", "document.querySelector('#capture-list button')"),
        ("station", "document.querySelector('#station-alarms dd')"),
        ("tune", "true"),
    ];

    [SkippableFact]
    public async Task Every_view_shows_what_it_is_for_fits_the_screen_and_keeps_nobody_out()
    {
        using var run = await PageRun.Start();
        await using var browser = await Browser.Start(run.Folder, "views", 390, 844);
        await browser.Open(run.Address);
        await browser.Until("document.getElementById('verdict')?.innerText === 'In the band'", 15);
        await Eye.Open(browser);
        foreach (var (width, height) in ((int, int)[])[(390, 844), (1600, 900)])
        {
            await browser.Size(width, height);
            foreach (var scheme in (string[])["light", "dark"])
            {
                await browser.Prefer("prefers-color-scheme", scheme);
                foreach (var (name, shown) in Views)
                {
                    await browser.Tell($"location.hash = '{name}'");
                    await browser.Until($"document.body.dataset.view === '{name}' && ({shown})", 15);
                    await Eye.Fits(browser, name);
                    await Eye.See(browser, $"view-{name}-{width}-{scheme}");
                }
            }
        }

        // axe would see a fault: a button that nothing names is one.
        await browser.Tell("document.querySelector('main').append(document.createElement('button')); location.hash = 'now'");
        Assert.Contains("button-name", await browser.Tell("axe.run(document.querySelector('main > button')).then(found => JSON.stringify(found.violations))"), StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Keys_alone_reach_every_view_a_capture_is_replayed_and_the_wave_is_held()
    {
        using var run = await PageRun.Start();
        await using var browser = await Browser.Start(run.Folder, "keys", 1600, 900);
        await browser.Open(run.Address);
        await browser.Until("document.getElementById('verdict')?.innerText === 'In the band'", 15);

        // The tab order of the links is the order of the views; each is a plain link that Enter follows.
        var links = JsonNode.Parse(await browser.Tell("JSON.stringify([...document.querySelectorAll('#views a')].filter(link => link.offsetParent).map(link => link.hash))"))!.AsArray();
        Assert.Equal(["#now", "#alarms", "#check", "#trend", "#waveform", "#captures", "#station"], links.Select(link => (string)link!));
        await browser.Tell("document.querySelector('#views a[href=\"#trend\"]').focus()");
        await browser.Key("Enter");
        await browser.Until("document.body.dataset.view === 'trend' && document.activeElement.id === 'trend'", 5);
        await browser.Tell("history.back()");
        await browser.Until("document.body.dataset.view === 'now'", 5);

        await browser.Tell("location.hash = 'waveform'");
        await browser.Until("document.querySelector('#wave-plot canvas')", 15);
        await browser.Tell("document.getElementById('wave-hold').focus()");
        await browser.Key("Enter");
        await browser.Until("document.getElementById('wave-hold').getAttribute('aria-pressed') === 'true'", 2);

        await browser.Tell("location.hash = 'captures'");
        await browser.Until("document.querySelectorAll('#capture-list button').length === 2", 15);
        await browser.Tell("document.querySelectorAll('#capture-list button')[1].focus()");
        await browser.Key("Enter");
        await browser.Until("document.getElementById('capture-result').innerText.includes('Stroke 1.7')", 20);
        Assert.Contains("In the band", await browser.Text("capture-result"), StringComparison.Ordinal);
    }
}
