using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Influx;

/// <summary>A real time-series server of a test's own, on loopback and in a temporary folder; it can be stopped and started again on what it holds.</summary>
/// <remarks>It keeps instants to the millisecond. Told to keep one sample of a series a millisecond, it takes a row sent twice for one, as servers of line protocol do of themselves.</remarks>
internal sealed class VictoriaMetrics : IDisposable
{
    private const string Program = "/usr/bin/victoria-metrics";
    private readonly HttpClient http = new() { Timeout = TimeSpan.FromSeconds(20) };
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-series-").FullName;
    private readonly int port = FreePort();
    private Process? process;

    public Uri Url => new($"http://127.0.0.1:{port}/");

    /// <summary>Skips the test where the program is not there.</summary>
    public static void Need() => Skip.IfNot(File.Exists(Program), "victoria-metrics is not installed (apt-get install victoria-metrics).");

    /// <summary>Starts the server and waits until it answers.</summary>
    public async Task Start(params string[] more)
    {
        process = Process.Start(new ProcessStartInfo(Program, [$"-httpListenAddr=127.0.0.1:{port}", $"-storageDataPath={folder}", "-dedup.minScrapeInterval=1ms", "-loggerLevel=ERROR", .. more])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        for (var i = 0; i < 300; i++)
        {
            try
            {
                if ((await http.GetAsync(new Uri(Url, "health"))).IsSuccessStatusCode)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not up yet.
            }

            await Task.Delay(100);
        }

        throw new InvalidOperationException("The time-series server did not start.");
    }

    /// <summary>Ends the server as a restart of its machine would (SIGTERM): killed outright it loses what it has confirmed in its last seconds, as its makers say.</summary>
    public void Stop()
    {
        using (var kill = Process.Start("kill", ["-TERM", process!.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
        {
            kill.WaitForExit();
        }

        Assert.True(process.WaitForExit(TimeSpan.FromSeconds(60)));
        process.Dispose();
        process = null;
    }

    /// <summary>Kills the server in the middle of whatever it does; what it has not yet put on its disk is gone.</summary>
    public void KillOutright()
    {
        process!.Kill();
        process.WaitForExit();
        process.Dispose();
        process = null;
    }

    /// <summary>Hands lines on to the server as they are; says whether it took them.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="killed">Whether the server is killed when half of the request has reached it.</param>
    public async Task<bool> Take(IEnumerable<string> lines, bool killed = false)
    {
        using var body = killed ? new CutBody(string.Join('\n', lines), KillOutright) : (HttpContent)new StringContent(string.Join('\n', lines));
        try
        {
            using var answer = await http.PostAsync(new Uri(Url, "api/v2/write?precision=ns"), body);
            return answer.StatusCode == HttpStatusCode.NoContent;
        }
        catch (HttpRequestException) when (killed)
        {
            return false;
        }
    }

    /// <summary>Gives every sample of a metric, by feeder and in order of time.</summary>
    public async Task<Dictionary<string, List<(long Ms, double Value)>>> Samples(string metric)
    {
        using var flushed = await http.GetAsync(new Uri(Url, "internal/force_flush"));
        var text = await http.GetStringAsync(new Uri(Url, $"api/v1/export?match[]={metric}"));
        var found = new Dictionary<string, List<(long, double)>>();
        foreach (var line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            using var series = JsonDocument.Parse(line);
            var feeder = series.RootElement.GetProperty("metric").GetProperty("feeder").GetString()!;
            var values = series.RootElement.GetProperty("values").EnumerateArray().Select(value => value.GetDouble());
            var times = series.RootElement.GetProperty("timestamps").EnumerateArray().Select(time => time.GetInt64());
            if (!found.TryGetValue(feeder, out var samples))
            {
                found[feeder] = samples = [];
            }

            samples.AddRange(times.Zip(values));
            samples.Sort();
        }

        return found;
    }

    public void Dispose()
    {
        if (process is not null)
        {
            process.Kill();
            process.WaitForExit();
            process.Dispose();
        }

        http.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>A body of which the first half arrives before something is done to the receiver.</summary>
    private sealed class CutBody(string text, Action cut) : HttpContent
    {
        private readonly byte[] bytes = System.Text.Encoding.UTF8.GetBytes(text + "\n");

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            await stream.WriteAsync(bytes.AsMemory(0, bytes.Length / 2));
            await stream.FlushAsync();
            await Task.Delay(300);
            cut();
            await stream.WriteAsync(bytes.AsMemory(bytes.Length / 2));
        }

        protected override bool TryComputeLength(out long length)
        {
            length = bytes.Length;
            return true;
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
