using System.Diagnostics;
using System.Globalization;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The page as a person sees it, in a real browser: on a phone and on a control-room screen at the same time.</summary>
[Collection(RealTime.Name)]
public sealed class BrowserTests(ITestOutputHelper output)
{
    [SkippableFact]
    public async Task A_phone_and_a_wide_screen_show_the_stroke_over_stroke_within_a_second_strike_and_an_old_reading()
    {
        using var run = await PageRun.Start();
        await using var phone = await Browser.Start(run.Folder, "phone", 390, 844);

        // The wide one's machine writes a decimal comma, and prefers the dark.
        await using var wide = await Browser.Start(run.Folder, "wide", 1600, 900, "--lang=de-DE");
        await wide.Prefer("prefers-color-scheme", "dark");
        Browser[] both = [phone, wide];
        foreach (var browser in both)
        {
            await browser.Open(run.Address);
            await browser.Until("document.getElementById('verdict')?.innerText === 'In the band'", 15);
            Assert.Matches(@"^1\.7\d\d$", await browser.Text("mm"));
            Assert.Matches(@"^0\.06\d\d$", await browser.Text("inch"));
            Assert.Matches(@"^± 0\.0\d\d$", await browser.Text("mm-doubt"));
            Assert.Equal("Running", await browser.Text("motion"));
            Assert.Equal("", await browser.Text("danger"));
            Assert.Equal("0", await browser.Tell("document.documentElement.scrollWidth - document.documentElement.clientWidth"));
            await browser.Until("document.querySelector('#drawing .trace') && document.querySelector('#drawing .hand')", 15);
        }

        Assert.Equal("true", await phone.Tell("String(document.getElementById('rule').getBoundingClientRect().bottom < 844)"));
        await Pictures(phone, wide, "healthy");

        await Until(() => run.Said.Contains("ALARM  OVER-STROKE", StringComparison.Ordinal), 60);
        var said = Stopwatch.StartNew();
        foreach (var browser in both)
        {
            var waited = await browser.Until("document.getElementById('danger').innerText.includes('Over-stroke. Stop the feeder.')", 1);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"over-stroke on the page {said.Elapsed.TotalSeconds:0.00} s after it was said (last wait {waited.TotalSeconds:0.00} s)"));
        }

        Assert.InRange(said.Elapsed.TotalSeconds, 0, 1);
        await phone.Until("[...document.querySelectorAll('#alarm-list li.stands')].some(row => row.innerText.includes('OVER-STROKE') && row.innerText.includes('not acknowledged'))", 2);
        Assert.Equal("0", await wide.Tell("document.documentElement.scrollHeight - document.documentElement.clientHeight"));
        await Pictures(phone, wide, "over-stroke");

        await Until(() => run.Said.Contains("ALARM  ARMATURE STRIKE", StringComparison.Ordinal), 40);
        foreach (var browser in both)
        {
            await browser.Until("document.getElementById('strike').innerText === 'The armature strikes the core.'", 1.5);
        }

        await Pictures(phone, wide, "strike");
        run.Pause();
        var paused = Stopwatch.StartNew();
        foreach (var browser in both)
        {
            await browser.Until("document.getElementById('now').classList.contains('stale') && document.getElementById('age').innerText.includes('What is shown is old')", 3);
        }

        Assert.Equal("Running? Not known", await phone.Text("motion"));
        Assert.Contains("Stop the feeder", await phone.Text("danger"), StringComparison.Ordinal);
        Assert.InRange(paused.Elapsed.TotalSeconds, 0.5, 3);
        await Pictures(phone, wide, "old");
    }

    /// <summary>The demonstration's machine leaves nothing open, so one word of what comes live is changed on its way into the page.</summary>
    [SkippableFact]
    public async Task A_strike_that_one_window_leaves_open_is_said_for_ten_seconds_and_no_longer()
    {
        using var run = await PageRun.Start();
        await using var phone = await Browser.Start(run.Folder, "phone", 390, 844);
        await phone.Before("""
            window.leavesOpen = false;
            const listen = EventSource.prototype.addEventListener;
            EventSource.prototype.addEventListener = function (kind, hear) {
              listen.call(this, kind, (event) => {
                const told = JSON.parse(event.data);
                if (kind === "status" && window.leavesOpen) {
                  told.strike.possible = true;
                }

                hear({ data: JSON.stringify(told) });
              });
            };
            """);
        await phone.Open(run.Address);
        const string None = "document.getElementById('strike')?.innerText === 'No armature strike heard.'";
        const string Open = "document.getElementById('strike')?.innerText.includes('one cannot be ruled out')";
        await phone.Until(None, 15);
        await phone.Tell("window.leavesOpen = true");
        await phone.Until(Open, 1.5);
        await phone.Tell("window.leavesOpen = false");
        await Pictures(phone, phone, "possible");
        var waited = await phone.Until(None, 12);
        Assert.InRange(waited.TotalSeconds, 8, 11);
    }

    private static async Task Until(Func<bool> come, double seconds)
    {
        var watch = Stopwatch.StartNew();
        while (!come())
        {
            Assert.True(watch.Elapsed.TotalSeconds < seconds, "it did not come");
            await Task.Delay(20);
        }
    }

    /// <summary>Pictures are taken only for a person who wants to look at them.</summary>
    private static async Task Pictures(Browser phone, Browser wide, string name)
    {
        if (Environment.GetEnvironmentVariable("STROKEWATCH_PICTURES") is { Length: > 0 } folder)
        {
            await phone.Picture(Path.Combine(folder, $"{name}-phone.png"));
            await wide.Picture(Path.Combine(folder, $"{name}-wide.png"));
        }
    }
}
