using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json;

namespace StrokeWatch.Benchmarks;

/// <summary>A real time-series server of a benchmark's own, on loopback, behind a door that counts what comes in.</summary>
internal sealed class SeriesServer : IDisposable
{
    private const string Program = "/usr/bin/victoria-metrics";

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-series").FullName;
    private readonly HttpClient http = new();
    private readonly TcpListener door = new(IPAddress.Loopback, 0);
    private readonly Process process;
    private readonly int port = Broker.FreePort();
    private long taken, requests;

    public SeriesServer()
    {
        if (!File.Exists(Program))
        {
            throw new FileNotFoundException($"{Program} is not there: apt-get install victoria-metrics");
        }

        process = Process.Start(new ProcessStartInfo(Program, [$"-httpListenAddr=127.0.0.1:{port}", $"-storageDataPath={folder}", "-dedup.minScrapeInterval=1ms", "-loggerLevel=ERROR"])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        process.BeginErrorReadLine();
        process.BeginOutputReadLine();
        for (var i = 0; i < 300 && !Answers(); i++)
        {
            Thread.Sleep(100);
        }

        door.Start();
        _ = Task.Run(Open);
    }

    /// <summary>Gets the door's address.</summary>
    public Uri Url => new($"http://127.0.0.1:{((IPEndPoint)door.LocalEndpoint).Port}/");

    /// <summary>Gets how many bytes have come in.</summary>
    public long BytesTaken => Volatile.Read(ref taken);

    /// <summary>Gets how many requests have been answered.</summary>
    public long Requests => Volatile.Read(ref requests);

    /// <summary>Counts the windows that the server holds, of all feeders.</summary>
    public long Rows() => Ids().Values.Sum(ids => (long)ids.Count);

    /// <summary>Gives the numbers of the windows that the server holds, in order, by feeder; one that is there twice is given twice.</summary>
    public Dictionary<string, List<long>> Ids()
    {
        _ = http.GetStringAsync(new Uri($"http://127.0.0.1:{port}/internal/force_flush")).GetAwaiter().GetResult();
        var text = http.GetStringAsync(new Uri($"http://127.0.0.1:{port}/api/v1/export?match[]=strokewatch_window_id")).GetAwaiter().GetResult();
        var held = new Dictionary<string, List<long>>(StringComparer.Ordinal);
        foreach (var line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            using var series = JsonDocument.Parse(line);
            var feeder = series.RootElement.GetProperty("metric").GetProperty("feeder").GetString()!;
            if (!held.TryGetValue(feeder, out var ids))
            {
                held[feeder] = ids = [];
            }

            ids.AddRange(series.RootElement.GetProperty("values").EnumerateArray().Select(value => (long)value.GetDouble()));
            ids.Sort();
        }

        return held;
    }

    public void Dispose()
    {
        door.Dispose();
        process.Kill();
        process.WaitForExit();
        process.Dispose();
        http.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private bool Answers()
    {
        try
        {
            return http.GetAsync(new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}/health"))).GetAwaiter().GetResult().IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private async Task Open()
    {
        try
        {
            while (true)
            {
                var board = await door.AcceptTcpClientAsync();
                _ = Task.Run(() => Carry(board));
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // The door is shut.
        }
    }

    private async Task Carry(TcpClient board)
    {
        using var server = new TcpClient();
        try
        {
            await server.ConnectAsync(IPAddress.Loopback, port);
            var back = Copy(server.GetStream(), board.GetStream(), text => Interlocked.Add(ref requests, text.AsSpan().Count("HTTP/1.1 2"u8)));
            await Copy(board.GetStream(), server.GetStream(), bytes => Interlocked.Add(ref taken, bytes.Length));
            server.Client.Shutdown(SocketShutdown.Send);
            await back;
        }
        catch (Exception e) when (e is IOException or SocketException or ObjectDisposedException)
        {
            // One of the two is gone.
        }
        finally
        {
            board.Dispose();
        }
    }

    private static async Task Copy(NetworkStream from, NetworkStream to, Action<byte[]> count)
    {
        var buffer = new byte[1 << 16];
        for (int read; (read = await from.ReadAsync(buffer)) > 0;)
        {
            count(buffer[..read]);
            await to.WriteAsync(buffer.AsMemory(0, read));
        }
    }
}
