using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;

namespace StrokeWatch.Tests.Outputs.Influx;

/// <summary>A time-series server on loopback that behaves as a test tells it; a point with the series and the instant of another replaces it, as such servers do.</summary>
internal sealed partial class FakeInflux : IDisposable
{
    private readonly Lock gate = new();
    private readonly Dictionary<string, string> points = [];
    private readonly ConcurrentBag<TcpClient> clients = [];
    private readonly TcpListener listener;

    public FakeInflux(int? port = null)
    {
        listener = new(IPAddress.Loopback, port ?? 0);
        listener.Start();
        Port = ((IPEndPoint)listener.LocalEndpoint).Port;
        _ = Task.Run(Serve);
    }

    public int Port { get; }

    public Uri Url => new($"http://127.0.0.1:{Port}/");

    /// <summary>Gets or sets what it answers to a request's lines.</summary>
    public Func<IReadOnlyList<string>, FakeReply> Answer { get; set; } = _ => FakeReply.Taken;

    /// <summary>Gets every line kept, in the order in which they came, repeats included.</summary>
    public List<string> Kept { get; } = [];

    /// <summary>Gets how many lines each request had.</summary>
    public List<int> Requests { get; } = [];

    public List<string> Paths { get; } = [];

    public string? Authorization { get; private set; }

    /// <summary>Gets the ids of the points of a table that the server holds, in the order of their instants.</summary>
    public List<long> Ids(string table)
    {
        lock (gate)
        {
            return [.. points.Values.Where(line => line.StartsWith($"strokewatch_{table},", StringComparison.Ordinal))
                .OrderBy(line => long.Parse(line[(line.LastIndexOf(' ') + 1)..])).Select(line => long.Parse(Id().Match(line).Groups[1].Value))];
        }
    }

    /// <summary>Gives a port nobody listens at.</summary>
    public static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    public void Dispose()
    {
        listener.Dispose();
        foreach (var client in clients)
        {
            client.Dispose();
        }
    }

    [GeneratedRegex("[ ,]id=([0-9]+)i")]
    private static partial Regex Id();

    [GeneratedRegex(@"^((?:\\.|[^ \\])+) .* ([0-9]+)$")]
    private static partial Regex Key();

    private async Task Serve()
    {
        try
        {
            while (true)
            {
                var client = await listener.AcceptTcpClientAsync();
                clients.Add(client);
                _ = Task.Run(() => Serve(client));
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or InvalidOperationException)
        {
            // The server was stopped.
        }
    }

    private async Task Serve(TcpClient client)
    {
        using var _ = client;
        var stream = client.GetStream();
        try
        {
            while (await Request(stream) is var (path, authorization, body))
            {
                var reply = Take(path, authorization, body.Split('\n', StringSplitOptions.RemoveEmptyEntries));
                await Task.Delay(reply.Delay);
                if (reply.Abort)
                {
                    client.LingerState = new(true, 0);
                    return;
                }

                var later = reply.RetryAfter is { } asked ? $"Retry-After: {asked}\r\n" : "";
                var length = reply.Status == 204 ? "" : $"Content-Length: {reply.Body.Length}\r\n";
                await stream.WriteAsync(Encoding.ASCII.GetBytes($"HTTP/1.1 {reply.Status} Said\r\n{later}{length}\r\n{reply.Body}"));
            }
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException)
        {
            // The client has gone meanwhile, or the server was stopped.
        }
    }

    private FakeReply Take(string path, string? authorization, string[] lines)
    {
        lock (gate)
        {
            Requests.Add(lines.Length);
            Paths.Add(path);
            Authorization = authorization;
            var reply = Answer(lines);
            foreach (var line in lines.Take(reply.Take))
            {
                Kept.Add(line);
                var key = Key().Match(line);
                points[key.Groups[1].Value + key.Groups[2].Value] = line;
            }

            return reply;
        }
    }

    /// <summary>Reads one request; null at the connection's end.</summary>
    private static async Task<(string Path, string? Authorization, string Body)?> Request(NetworkStream stream)
    {
        var head = new List<byte>();
        var one = new byte[1];
        while (!head.TakeLast(4).SequenceEqual("\r\n\r\n"u8.ToArray()))
        {
            if (await stream.ReadAsync(one) == 0)
            {
                return null;
            }

            head.Add(one[0]);
        }

        var lines = Encoding.ASCII.GetString([.. head]).Split("\r\n");
        string? Header(string name) => lines.FirstOrDefault(line => line.StartsWith(name + ":", StringComparison.OrdinalIgnoreCase))?[(name.Length + 1)..].Trim();
        var body = new byte[int.Parse(Header("Content-Length") ?? "0")];
        await stream.ReadExactlyAsync(body);
        return (lines[0].Split(' ')[1], Header("Authorization"), Encoding.UTF8.GetString(body));
    }
}
