using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;

namespace StrokeWatch.Tests.Outputs.Webhook;

/// <summary>Somebody at a webhook's address on loopback who behaves as a test tells; it knows nothing of our code but what is written of the headers.</summary>
internal sealed class FakeReceiver : IDisposable
{
    private readonly Lock gate = new();
    private readonly TcpListener listener;
    private readonly List<Message> heard = [];

    public FakeReceiver(int port = 0)
    {
        listener = new(IPAddress.Loopback, port);
        listener.Start();
        Url = new($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/alarms?plant=3");
        _ = Task.Run(Serve);
    }

    public Uri Url { get; }

    /// <summary>Gets or sets what it does with the message of a number, counted from 0: the status it answers, what else stands in the answer, how long it takes, and whether it dies in the middle of it.</summary>
    public Func<int, (int Status, string Headers, TimeSpan Delay, bool Dies)> Answer { get; set; } = _ => (204, "", default, false);

    public IReadOnlyList<Message> Heard
    {
        get
        {
            lock (gate)
            {
                return [.. heard];
            }
        }
    }

    /// <summary>Gets the ids in the order in which each was first heard.</summary>
    public IReadOnlyList<string> Ids => [.. Heard.Select(message => message.Id).Distinct()];

    public void Dispose() => listener.Dispose();

    private async Task Serve()
    {
        try
        {
            while (true)
            {
                var client = await listener.AcceptTcpClientAsync();
                _ = Task.Run(() => Serve(client));
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException or InvalidOperationException)
        {
            // It was stopped.
        }
    }

    private async Task Serve(TcpClient client)
    {
        using var held = client;
        var stream = client.GetStream();
        try
        {
            while (await Read(stream) is { } message)
            {
                (int Status, string Headers, TimeSpan Delay, bool Dies) answer;
                lock (gate)
                {
                    answer = Answer(heard.Count);
                    heard.Add(message with { Status = answer.Dies ? 0 : answer.Status });
                }

                await Task.Delay(answer.Delay);
                var text = $"HTTP/1.1 {answer.Status} Said\r\n{answer.Headers}Content-Length: 0\r\n\r\n";
                if (answer.Dies)
                {
                    await stream.WriteAsync(Encoding.ASCII.GetBytes(text[..12]));
                    client.LingerState = new(true, 0);
                    return;
                }

                await stream.WriteAsync(Encoding.ASCII.GetBytes(answer.Status == 204 ? text.Replace("Content-Length: 0\r\n", "", StringComparison.Ordinal) : text));
            }
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException)
        {
            // The other side has gone.
        }
    }

    private static async Task<Message?> Read(NetworkStream stream)
    {
        var head = new StringBuilder();
        var one = new byte[1];
        while (!head.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            if (await stream.ReadAsync(one) == 0)
            {
                return null;
            }

            head.Append((char)one[0]);
        }

        var lines = head.ToString().Split("\r\n");
        string Header(string name) => lines.First(line => line.StartsWith(name + ":", StringComparison.OrdinalIgnoreCase))[(name.Length + 1)..].Trim();
        var body = new byte[int.Parse(Header("Content-Length"))];
        await stream.ReadExactlyAsync(body);
        return new(lines[0], Header("StrokeWatch-Id"), Header("StrokeWatch-Time"), Header("StrokeWatch-Signature"), Header("Content-Type"), body, 0);
    }

    internal sealed record Message(string Line, string Id, string Time, string Signature, string Type, byte[] Body, int Status)
    {
        public JsonElement Json => JsonDocument.Parse(Body).RootElement;
    }
}
