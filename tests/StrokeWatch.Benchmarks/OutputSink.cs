using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace StrokeWatch.Benchmarks;

/// <summary>All that a daemon may tell: a broker, somebody at a webhook's address, somebody who follows the page, a folder for captures.</summary>
internal sealed class OutputSink : IDisposable
{
    private readonly Broker broker = new();
    private readonly TcpListener hook = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource stop = new();
    private readonly int page = Broker.FreePort();
    private int followed;

    public OutputSink(string folder)
    {
        hook.Start();
        var secret = Path.Combine(folder, "secret");
        File.WriteAllText(secret, "benchmark");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(secret, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        _ = Task.Run(Follow);
    }

    /// <summary>Gets the tables of the daemon's configuration.</summary>
    public string Toml => string.Create(
        CultureInfo.InvariantCulture,
        $"[mqtt]\nhost = \"127.0.0.1\"\nport = {broker.Port}\n[webhook]\nurl = \"http://127.0.0.1:{((IPEndPoint)hook.LocalEndpoint).Port}/\"\nsecret_file = \"secret\"\n[page]\nlisten = \"127.0.0.1:{page}\"\n[captures]\nfolder = \"captures\"\n");

    /// <summary>Makes sure that the page was followed.</summary>
    public void Check()
    {
        if (followed < 10)
        {
            throw new InvalidOperationException($"only {followed} events came from the page");
        }
    }

    public void Dispose()
    {
        stop.Cancel();
        hook.Dispose();
        broker.Dispose();
        stop.Dispose();
    }

    private async Task Follow()
    {
        using var client = new HttpClient { Timeout = Timeout.InfiniteTimeSpan };
        while (!stop.IsCancellationRequested)
        {
            try
            {
                using var stream = await client.GetStreamAsync(new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{page}/api/v1/live")), stop.Token);
                using var reader = new StreamReader(stream);
                while (await reader.ReadLineAsync(stop.Token) is not null)
                {
                    followed++;
                }
            }
            catch (Exception e) when (e is HttpRequestException or IOException)
            {
                await Task.Delay(200);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }
}
