using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Access;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The page and its API as the daemon serves them, in this process, asked over sockets; some requests come with an engineer's token. No answer may be status 500.</summary>
internal sealed class HttpTarget : IFuzzTarget
{
    /// <summary>Stands for the token, which is another in each run, so that inputs hang on the seed alone.</summary>
    private const string Bearer = "Bearer TOKEN";

    private const int MostAnswer = 200_000, PatienceMilliseconds = 20_000, FirstMilliseconds = 40, NextMilliseconds = 20;
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-fuzz").FullName;
    private readonly CancellationTokenSource stop = new();
    private readonly IPEndPoint page = new(IPAddress.Loopback, Broker.FreePort());
    private readonly Task watching;
    private readonly string token;
    private readonly byte[] buffer = new byte[65536];

    public HttpTarget()
    {
        (token, var kept) = PageToken.Make("Erika", TimeProvider.System.GetUtcNow());
        var users = Path.Combine(folder, "page-users.toml");
        new UsersFile([new("Erika", PageRole.Engineer, PasswordHash.Make("four blue trays", 100_000))], [kept]).Write(users);
        var link = new MemoryLink();
        var run = new WatchRun
        {
            Feeder = DemoScenario.Feeder,
            Store = new(Path.Combine(folder, "store.db"), 1),
            LogLevel = LogLevelName.Error,
            Terminal = false,
            Output = TextWriter.Null,
            Page = new(page, [], Needed: true) { Users = users },
            CapturesFolder = folder,
            Time = TimeProvider.System,
        };
        watching = Task.Factory.StartNew(() => run.Run([tell => LiveSensors.Make(new(), link, TimeProvider.System, tell)], stop.Token), TaskCreationOptions.LongRunning);
        Corpus = [.. Requests()];
        if (!SpinWait.SpinUntil(() => watching.IsCompleted || Answers(), TimeSpan.FromSeconds(60)) || watching.IsCompleted)
        {
            throw new InvalidOperationException($"the page was not served: {watching.Exception}");
        }
    }

    public IReadOnlyList<byte[]> Corpus { get; }

    public IReadOnlyList<string> Words { get; } =
    [
        "GET ", "POST ", "HEAD ", "\r\n", "\r\n\r\n", "HTTP/1.0", "HTTP/2.0", "Host: localhost\r\n", "Content-Length: 5\r\n", "Transfer-Encoding: chunked\r\n", "%00", "%2e%2e/", "../", "?points=", "points=-1", "from=", "to=9999-12-31T23:59:59Z", "hours=1e9", "name=",
        "file=", "&", "=", "{", "}", "[", "]", "\"", "null", "1e400", "-1", "true", "{\"a\":", "\\ud800", "over-stroke", "sensor-lost", "minutes", "answer", "words", "\0", "é", "Range: bytes=0-1\r\n", "Range: bytes=5-1,-9\r\n", "Expect: 100-continue\r\n", "Upgrade: h2c\r\n",
    ];

    public int Longest => 9000;

    public bool Take(byte[] input, Random random)
    {
        if (watching.IsCompleted)
        {
            throw new InvalidOperationException($"the daemon ended: {watching.Exception}");
        }

        input = Encoding.Latin1.GetBytes(Encoding.Latin1.GetString(input).Replace(Bearer, $"Bearer {token}", StringComparison.Ordinal));

        // Half keep their length right: else nearly all bodies would end at the server's own check.
        var answer = Ask(random.Next(2) == 0 ? Measured(input) : input);
        return answer.StartsWith("HTTP/1.1 500", StringComparison.Ordinal) ? throw new InvalidOperationException($"asked, it answered {answer[..Math.Min(300, answer.Length)]}")
            : answer.StartsWith("HTTP/1.1 2", StringComparison.Ordinal);
    }

    public void Dispose()
    {
        stop.Cancel();
        watching.Wait();
        stop.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private static byte[] Measured(byte[] input)
    {
        var text = Encoding.Latin1.GetString(input);
        var (from, end) = (text.IndexOf("Content-Length: ", StringComparison.Ordinal), text.IndexOf("\r\n\r\n", StringComparison.Ordinal));
        var to = from < 0 ? -1 : text.IndexOf('\r', from);
        return to < 0 || to > end ? input : Encoding.Latin1.GetBytes($"{text[..from]}Content-Length: {text.Length - end - 4}{text[to..]}");
    }

    /// <summary>Makes a request of each path and method that the API's own document names.</summary>
    private static IEnumerable<byte[]> Requests()
    {
        using var document = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(FuzzFiles.Root, "src", "StrokeWatch", "Page", "Assets", "openapi.json")));
        foreach (var path in document.RootElement.GetProperty("paths").EnumerateObject())
        {
            foreach (var method in path.Value.EnumerateObject())
            {
                var (verb, at) = (method.Name.ToUpperInvariant(), path.Name.Replace("{id}", "sensor-lost", StringComparison.Ordinal));
                var query = method.Value.TryGetProperty("parameters", out var parameters)
                    ? string.Join('&', parameters.EnumerateArray().Where(one => one.TryGetProperty("in", out var place) && place.GetString() == "query").Select(one => $"{one.GetProperty("name").GetString()}=10"))
                    : "";
                var body = verb == "POST" ? "{\"name\":\"Erika\",\"password\":\"four blue trays\",\"words\":\"seen\",\"minutes\":5,\"answer\":\"yes\"}" : "";
                var length = verb == "POST" ? $"Content-Type: application/json\r\nContent-Length: {body.Length}\r\n" : "";
                yield return Encoding.ASCII.GetBytes($"{verb} {at}{(query.Length > 0 ? "?" : "")}{query} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nAuthorization: {Bearer}\r\n{length}\r\n{body}");
                yield return Encoding.ASCII.GetBytes($"{verb} {at} HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nStrokeWatch: 1\r\n{length}\r\n{body}");
            }
        }
    }

    private bool Answers()
    {
        try
        {
            return Ask("GET /api/v1/status HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"u8.ToArray()).StartsWith("HTTP/1.1 200", StringComparison.Ordinal);
        }
        catch (SocketException)
        {
            return false;
        }
    }

    /// <summary>Sends bytes and the end of them, and gives the beginning of the answer; one that goes on for ever is only glanced at.</summary>
    private string Ask(byte[] input)
    {
        using var socket = new Socket(page.AddressFamily, SocketType.Stream, ProtocolType.Tcp) { ReceiveTimeout = PatienceMilliseconds, SendTimeout = PatienceMilliseconds, LingerState = new(true, 0) };
        socket.Connect(page);
        var begin = "";
        try
        {
            socket.Send(input);
            var more = true;
            for (int count, all = 0; all < MostAnswer; all += count)
            {
                // A request that is not whole, or one that leaves the connection open, is ended from this side: only then must the other hang up.
                if (more && !socket.Poll(TimeSpan.FromMilliseconds(begin.Length > 0 ? NextMilliseconds : FirstMilliseconds), SelectMode.SelectRead))
                {
                    socket.Shutdown(SocketShutdown.Send);
                    more = false;
                }

                count = socket.Receive(buffer);
                if (count == 0)
                {
                    break;
                }

                begin = begin.Length == 0 ? Encoding.Latin1.GetString(buffer, 0, Math.Min(count, 400)) : begin;
                if (begin.Contains("event-stream", StringComparison.Ordinal))
                {
                    break;
                }
            }
        }
        catch (SocketException e) when (e.SocketErrorCode is SocketError.ConnectionReset or SocketError.Shutdown or SocketError.ConnectionAborted)
        {
            // The server hung up, which is an answer too.
        }

        return begin;
    }
}
