using System.Runtime.Versioning;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>Looks at what a browser shows as those look who need more than a picture: by axe-core, and at the screen's edge.</summary>
internal static class Eye
{
    private static readonly (int Width, int Height)[] Sizes = [(1600, 900), (390, 844)];

    /// <summary>Gives the page axe-core; a page that is opened anew needs it anew.</summary>
    public static async Task Open(Browser browser) =>
        await browser.Tell($"{await File.ReadAllTextAsync(Path.Combine(Repository.Root, "tests/StrokeWatch.EndToEnd.Tests/Page/Axe/axe.min.js"))}; ''");

    /// <summary>What is seen keeps nobody out; a picture is taken only for a person who wants to look at it.</summary>
    public static async Task See(Browser browser, string picture)
    {
        Assert.Equal("", await browser.Tell(
            "axe.run().then(found => found.violations.map(one => one.id + ': ' + one.nodes.map(node => node.target.join(' ') + ' ' + node.failureSummary).join('; ')).join('; '))"));
        if (Environment.GetEnvironmentVariable("STROKEWATCH_PICTURES") is { Length: > 0 } folder)
        {
            await browser.Picture(Path.Combine(folder, picture + ".png"));
        }
    }

    /// <summary>Nothing is wider than the screen.</summary>
    public static async Task Fits(Browser browser, string name) =>
        Assert.Equal((name, "0"), (name, await browser.Tell("document.documentElement.scrollWidth - document.documentElement.clientWidth")));

    /// <summary>Sees it at a control room's size and at a phone's, which it is left at.</summary>
    public static async Task SeeAtBothSizes(Browser browser, string name)
    {
        foreach (var (width, height) in Sizes)
        {
            await browser.Size(width, height);
            await Fits(browser, $"{name} at {width}");
            await See(browser, $"{name}-{width}");
        }
    }

    /// <summary>Signs somebody in at the sheet that asks for it.</summary>
    [SupportedOSPlatform("linux")]
    public static async Task SignIn(Browser browser, string name)
    {
        await browser.Until("document.querySelector('dialog #access-name')", 5);
        await browser.Tell($"document.getElementById('access-name').value = '{name}'; document.getElementById('access-password').value = '{StaffedRun.Password}'; document.querySelector('dialog form button.main').click()");
        await browser.Until("!document.querySelector('dialog')", 10);
    }

    /// <summary>Signs out who is signed in.</summary>
    public static async Task SignOut(Browser browser)
    {
        await browser.Tell("document.querySelector('#access button').click()");
        await browser.Tell("document.querySelector('dialog button.main').click()");
        await browser.Until("document.querySelector('#access button').innerText === 'Sign in'", 5);
    }
}
