using System.Diagnostics;
using System.Globalization;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>A real Chromium without a window, driven by its own protocol; nothing beside the browser is needed.</summary>
internal sealed class Browser : IAsyncDisposable
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private readonly Process process;
    private readonly ClientWebSocket socket = new();
    private readonly byte[] buffer = new byte[1 << 16];
    private int number;

    private Browser(Process process) => this.process = process;

    /// <summary>Starts one; the test is not run where none is installed.</summary>
    public static async Task<Browser> Start(TempFolder folder, string name, int width, int height, params string[] more)
    {
        var program = Places.FirstOrDefault(File.Exists);
        Skip.If(program is null, "no Chromium is installed");
        var profile = folder.At($"profile-{name}");
        var start = new ProcessStartInfo(program!) { RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (var argument in (string[])["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--remote-debugging-port=0", $"--user-data-dir={profile}", .. more, "about:blank"])
        {
            start.ArgumentList.Add(argument);
        }

        var browser = new Browser(Process.Start(start)!);
        _ = browser.process.StandardOutput.ReadToEndAsync();
        _ = browser.process.StandardError.ReadToEndAsync();
        await browser.Attach(Path.Combine(profile, "DevToolsActivePort"));
        await browser.Size(width, height);
        return browser;
    }

    /// <summary>Makes the screen so large.</summary>
    public Task Size(int width, int height) =>
        Ask("Emulation.setDeviceMetricsOverride", new() { ["width"] = width, ["height"] = height, ["deviceScaleFactor"] = 1, ["mobile"] = width < 600 });

    /// <summary>Presses and lets go of a key that writes nothing but Enter's line end.</summary>
    public async Task Key(string name)
    {
        await Ask("Input.dispatchKeyEvent", new() { ["type"] = "keyDown", ["key"] = name, ["code"] = name, ["windowsVirtualKeyCode"] = name == "Enter" ? 13 : 9, ["text"] = name == "Enter" ? "\r" : "" });
        await Ask("Input.dispatchKeyEvent", new() { ["type"] = "keyUp", ["key"] = name, ["code"] = name, ["windowsVirtualKeyCode"] = name == "Enter" ? 13 : 9 });
    }

    /// <summary>Has every page that is opened from now on run a script before its own.</summary>
    public async Task Before(string script)
    {
        await Ask("Page.enable", []);
        await Ask("Page.addScriptToEvaluateOnNewDocument", new() { ["source"] = script });
    }

    /// <summary>Opens a page.</summary>
    public Task Open(string address) => Ask("Page.navigate", new() { ["url"] = address });

    /// <summary>Sets what the browser prefers, such as a dark scheme.</summary>
    public Task Prefer(string feature, string value) =>
        Ask("Emulation.setEmulatedMedia", new() { ["features"] = new JsonArray(new JsonObject { ["name"] = feature, ["value"] = value }) });

    /// <summary>Gives what an expression of the page comes to.</summary>
    public async Task<string> Tell(string expression)
    {
        var answer = await Ask("Runtime.evaluate", new() { ["expression"] = expression, ["returnByValue"] = true, ["awaitPromise"] = true });
        Assert.True(answer["exceptionDetails"] is null, $"{expression}: {answer["exceptionDetails"]?.ToJsonString()}");
        return answer["result"]?["value"]?.ToString() ?? "";
    }

    /// <summary>Gives the text that an element shows.</summary>
    public Task<string> Text(string id) => Tell($"document.getElementById('{id}').innerText");

    /// <summary>Waits until an expression of the page is true; gives after how long.</summary>
    public async Task<TimeSpan> Until(string expression, double seconds)
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed.TotalSeconds < seconds)
        {
            if (await Tell($"!!({expression})") is "true" or "True")
            {
                return watch.Elapsed;
            }

            await Task.Delay(50);
        }

        Assert.Fail($"not within {seconds.ToString(CultureInfo.InvariantCulture)} s: {expression}; the page says: {await Tell("document.body.innerText")}");
        return default;
    }

    /// <summary>Takes a picture of what is seen.</summary>
    public async Task Picture(string path)
    {
        var answer = await Ask("Page.captureScreenshot", new() { ["format"] = "png" });
        await File.WriteAllBytesAsync(path, Convert.FromBase64String((string)answer["data"]!));
    }

    public async ValueTask DisposeAsync()
    {
        socket.Dispose();
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
        }

        process.Dispose();
    }

    private async Task Attach(string file)
    {
        var watch = Stopwatch.StartNew();
        string[] lines = [];
        while (lines.Length < 2)
        {
            Assert.False(process.HasExited || watch.Elapsed.TotalSeconds > 40, "Chromium did not start");
            await Task.Delay(50);
            lines = File.Exists(file) ? await File.ReadAllLinesAsync(file) : [];
        }

        using var client = new HttpClient();
        var tabs = JsonNode.Parse(await client.GetStringAsync($"http://127.0.0.1:{lines[0]}/json/list"))!.AsArray();
        var tab = tabs.First(one => (string)one!["type"]! == "page")!;
        await socket.ConnectAsync(new Uri((string)tab["webSocketDebuggerUrl"]!), CancellationToken.None);
    }

    private async Task<JsonNode> Ask(string method, JsonObject parameters)
    {
        var id = ++number;
        var question = new JsonObject { ["id"] = id, ["method"] = method, ["params"] = parameters };
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(40));
        await socket.SendAsync(Encoding.UTF8.GetBytes(question.ToJsonString()), WebSocketMessageType.Text, true, patience.Token);
        while (true)
        {
            var answer = await Hear(patience.Token);
            if ((int?)answer["id"] == id)
            {
                Assert.True(answer["error"] is null, $"{method}: {answer["error"]?.ToJsonString()}");
                return answer["result"]!;
            }
        }
    }

    private async Task<JsonNode> Hear(CancellationToken patience)
    {
        using var whole = new MemoryStream();
        WebSocketReceiveResult part;
        do
        {
            part = await socket.ReceiveAsync(buffer, patience);
            whole.Write(buffer, 0, part.Count);
        }
        while (!part.EndOfMessage);
        return JsonNode.Parse(whole.ToArray())!;
    }
}
