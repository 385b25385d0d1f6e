using System.Runtime.Versioning;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The form that tells at commissioning what is healthy, in a real browser on a phone and on a wide screen.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class BaselineFormTests
{
    [SkippableFact]
    public async Task What_is_healthy_is_told_by_an_engineer_who_is_told_at_once_what_will_not_do_and_the_machine_is_judged_by_it()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(TraySensor.Feeder());
        await using var browser = await Browser.Start(run.Folder, "commissioning", 390, 844);
        await browser.Open(run.Address + "#check");
        await browser.Until("document.querySelector('#baseline-tell summary')", 20);
        await Eye.Open(browser);
        await browser.Tell("document.querySelector('#baseline-tell details').open = true");
        Assert.Equal("3", await browser.Tell("document.querySelectorAll('#told-form fieldset').length"));
        Assert.Equal("true", await browser.Tell("String([...document.querySelectorAll('#told-form button, #told-form input, #told-form select')].every(one => one.getBoundingClientRect().height >= 44))"));

        // Nothing told, half told: said before anybody is asked to sign in.
        await Send(browser);
        await browser.Until("document.querySelector('#told-form .trouble').innerText.startsWith('Nothing was told yet')", 5);
        await Type(browser, 0, "1,715", "");
        await browser.Until("document.querySelector('#told-form fieldset .note').innerText === '0.0675 in'", 5);
        await Send(browser);
        await browser.Until("document.querySelector('#told-form .trouble').innerText === 'Stroke, peak to peak, in mm: mean and spread are both needed, as numbers.'", 5);
        await Eye.SeeAtBothSizes(browser, "baseline-form-half");

        // A technician may not; what is typed stays for the engineer.
        await Type(browser, 0, "1,715", "0,01");
        await Send(browser);
        await Eye.SignIn(browser, "tom");
        await browser.Until("document.querySelector('#told-form .trouble').innerText.length > 0 && document.getElementById('baseline-tell').hidden", 5);
        Assert.False(File.Exists(run.Folder.At("cullet.baseline.json")));
        await Eye.SignOut(browser);
        await browser.Until("!document.getElementById('baseline-tell').hidden", 5);
        await Type(browser, 1, "sixty", "0.1");
        await Send(browser);
        await browser.Until("document.querySelector('#told-form .trouble').innerText === 'Natural frequency in Hz: mean and spread are both needed, as numbers.'", 5);
        await Type(browser, 1, "66,2", "-0,1");
        await Send(browser);
        await Eye.SignIn(browser, "erika");
        await browser.Until("document.querySelector('#told-form .trouble').innerText.includes('natural_frequency_hz=66.2,-0.1: mean and spread were expected')", 5);
        Assert.False(File.Exists(run.Folder.At("cullet.baseline.json")));

        // The third is another measure than the one proposed, a fourth is the first again.
        await Type(browser, 1, "66.2", "0.1");
        await Choose(browser, 2, "line_angle_deg");
        await Type(browser, 2, "20.5", "0.5");
        await browser.Tell("[...document.querySelectorAll('#told-form button')].find(one => one.innerText === 'One more measure').click()");
        await Choose(browser, 3, "stroke_mm");
        await Type(browser, 3, "1.6", "0.01");
        await Send(browser);
        await browser.Until("document.querySelector('#told-form .trouble').innerText === 'Stroke, peak to peak, in mm is there twice; tell each measure once.'", 5);
        await Choose(browser, 3, "stroke_scatter");
        await Type(browser, 3, "0.004", "0.001");
        await browser.Tell("document.getElementById('told-note').value = 'commissioned after the new rear stack'");
        await Eye.SeeAtBothSizes(browser, "baseline-form-full");
        await Send(browser);
        await browser.Until("document.querySelector('#told-form .said').innerText.startsWith('Version 1 is in force.')", 5);
        await browser.Until("document.querySelector('#baseline-list > li')?.innerText.includes('in force')", 5);
        Assert.Equal("", await browser.Tell("[...document.querySelectorAll('#told-form input')].map(one => one.value).join('')"));
        Assert.Contains("Erika: commissioned after the new rear stack", await browser.Text("baseline-list"), StringComparison.Ordinal);
        await browser.Tell("document.querySelector('#baseline-list details').open = true");
        Assert.Contains("Stroke, peak to peak, in mm: mean 1.715, spread 0.01", await browser.Text("baseline-list"), StringComparison.Ordinal);
        await Eye.SeeAtBothSizes(browser, "baseline-form-done");

        // The file is what the command would have written of the same words.
        var path = run.Folder.At("cullet.baseline.json");
        var told = BaselineFile.Read(path, new(path))!.Current!;
        var command = await Running.Run(
            run.Folder.Path, "baseline", "tell", "--feeder", "cullet.toml", "--out", "by-command.json", "--feature", "stroke_mm=1.715,0.01", "--feature", "natural_frequency_hz=66.2,0.1",
            "--feature", "line_angle_deg=20.5,0.5", "--feature", "stroke_scatter=0.004,0.001");
        Assert.Equal(0, command.Status);
        var same = BaselineFile.Read(run.Folder.At("by-command.json"), new("by-command.json"))!.Current!;
        Assert.Equal((BaselineOrigin.Told, 1), (told.Origin, told.Version));
        Assert.Equal(same.Features.Select(feature => (feature.Name, feature.Mean, feature.Spread)), told.Features.Select(feature => (feature.Name, feature.Mean, feature.Spread)));
    }

    private static Task Send(Browser browser) => browser.Tell("document.querySelector('#told-form button.main').click()");

    private static Task Choose(Browser browser, int row, string feature) => browser.Tell(
        $"(() => {{ const one = document.querySelectorAll('#told-form fieldset')[{row}].querySelector('select'); one.value = '{feature}'; one.dispatchEvent(new Event('change')); }})()");

    private static Task Type(Browser browser, int row, string mean, string spread) => browser.Tell(
        $"(() => {{ const [mean, spread] = document.querySelectorAll('#told-form fieldset')[{row}].querySelectorAll('input'); mean.value = '{mean}'; spread.value = '{spread}'; mean.dispatchEvent(new Event('input')); }})()");
}
