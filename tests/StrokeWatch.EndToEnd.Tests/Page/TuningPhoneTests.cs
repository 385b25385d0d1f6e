using System.Runtime.Versioning;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>A technician with a phone: a tuning session from the cautions to the signed record, in a real browser.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class TuningPhoneTests
{
    private const string Title = "document.querySelector('#session h3')?.innerText ?? ''";

    [SkippableFact]
    public async Task A_technician_tunes_a_feeder_on_a_phone_to_the_signed_record()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(TunedTray.Of("5x4.0"), TunedMachine.Feeder);
        var tray = new TunedTray(run, 17);
        await using var phone = await Browser.Start(run.Folder, "phone", 390, 844);
        await phone.Open(run.Address + "#tune");
        await phone.Until("[...document.querySelectorAll('#session button')].some(one => one.innerText === 'Begin')", 20);
        await Eye.Open(phone);
        Assert.Contains("lock and tag", await phone.Text("session"), StringComparison.Ordinal);
        await Picture(phone, "begin");
        await Press(phone, "Begin");
        await phone.Until("document.querySelector('dialog #access-name')", 3);
        await phone.Tell($"document.getElementById('access-name').value = 'Tom'; document.getElementById('access-password').value = '{StaffedRun.Password}'; document.querySelector('dialog form button.main').click()");
        await phone.Until($"{Title} === 'Cautions'", 8);
        var seen = "";
        for (var i = 0; i < 60; i++)
        {
            var title = await phone.Tell(Title);
            if (!seen.Contains($"|{title}|", StringComparison.Ordinal))
            {
                seen += $"|{title}|";
                await Picture(phone, title);
                Assert.Equal("true", await phone.Tell("String([...document.querySelectorAll('#session button, #session input')].every(one => one.getBoundingClientRect().height >= 48))"));
                Assert.Equal("0", await phone.Tell("document.documentElement.scrollWidth - document.documentElement.clientWidth"));
            }

            if (title == "Record")
            {
                break;
            }

            var turn = await phone.Tell("document.querySelector('#session').innerText");
            if (title == "Measure")
            {
                await tray.Starts();
                await phone.Tell("document.querySelector('#session .answers button').click()");
                await phone.Until("/^\\d+ s left$/.test(document.getElementById('session-left')?.innerText)", 6);
                await phone.Until("document.getElementById('session-heard')?.innerText.includes('Now switch the feeder off')", 25);
                await Picture(phone, "measuring");
                await phone.Until($"{Title} === 'Reading'", 30);
                continue;
            }

            // The record is signed by whoever is signed in; nobody else's name can be typed.
            Assert.Equal(title == "Sign the record" ? "sign as Tom" : "", title == "Sign the record" ? await phone.Tell("document.querySelector('#session .answers').textContent") : "");
            await phone.Tell("document.querySelector('#session .answers button').click()");
            await phone.Until($"document.querySelector('#session').innerText !== {System.Text.Json.JsonSerializer.Serialize(turn)} && document.querySelector('#session button:disabled') === null", 20);
        }

        Assert.Contains("Tom", await phone.Text("session"), StringComparison.Ordinal);
        foreach (var title in (string[])["Cautions", "Reading", "What to do next", "Isolate and lock out", "Change the rear stack", "Before it runs again", "Record"])
        {
            Assert.Contains($"|{title}|", seen, StringComparison.Ordinal);
        }

        tray.ShouldBeTuned("Tom");
    }

    private static Task Press(Browser phone, string words) => phone.Tell($"[...document.querySelectorAll('#session button')].find(one => one.innerText === '{words}').click()");

    private static Task Picture(Browser phone, string name) => Eye.See(phone, $"tune-{name.Replace(' ', '-')}");
}
