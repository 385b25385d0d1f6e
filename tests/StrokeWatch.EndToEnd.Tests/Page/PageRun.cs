using System.Text.RegularExpressions;
using StrokeWatch.EndToEnd.Tests.Commands;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>A demonstration whose page is served at a free port.</summary>
internal sealed partial class PageRun : IDisposable
{
    private readonly Running running;

    private PageRun(Running running, TempFolder folder, string address) => (this.running, Folder, Address) = (running, folder, address);

    /// <summary>Gets the folder it runs in.</summary>
    public TempFolder Folder { get; }

    /// <summary>Gets the page's address, with a slash at its end.</summary>
    public string Address { get; }

    /// <summary>Gets what it has said so far.</summary>
    public string Said => running.Out;

    /// <summary>Starts it and waits until the page is served.</summary>
    public static async Task<PageRun> Start()
    {
        var folder = new TempFolder();
        var running = Running.Start(folder.Path, "watch", "--demo", "--demo-folder", "demo", "--demo-page", "127.0.0.1:0");
        return new(running, folder, await AddressOf(running));
    }

    /// <summary>Waits until a program says where its page is served.</summary>
    public static async Task<string> AddressOf(Running running) =>
        (await running.Until(() => Told().Match(running.Out) is { Success: true } match ? match : null, "address of the page")).Groups[1].Value;

    /// <summary>Holds the program as it is, so that nothing comes from it any more.</summary>
    public void Pause() => running.Signal(Running.Stop);

    public void Dispose()
    {
        running.Dispose();
        Folder.Dispose();
    }

    [GeneratedRegex(@"Page: (http://127\.0\.0\.1:\d+/)\s")]
    private static partial Regex Told();
}
