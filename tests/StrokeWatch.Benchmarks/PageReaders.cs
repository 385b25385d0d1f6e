using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>The load of <see cref="PageLoad"/>, a process of its own behind all others: followers of the page and readers of its API, until its input ends. Prints how much they were told.</summary>
internal static class PageReaders
{
    /// <summary>How many follow live, and how many ask again and again.</summary>
    public const int Followers = 20, Readers = 50;

    private static readonly string[] Paths =
        ["api/v1/status", "api/v1/trend", "api/v1/health", "api/v1/waveform?points=300", "api/v1/findings", "api/v1/path", "api/v1/orders", "api/v1/alarms", "metrics", "page.js"];

    /// <summary>Runs with the page's address.</summary>
    public static int Run(string[] arguments)
    {
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 200 }) { BaseAddress = new(arguments[0]) };
        using var end = new CancellationTokenSource();
        long events = 0, answers = 0, failed = 0;
        var tasks = Enumerable.Range(0, Followers).Select(_ => Task.Run(() => Follow(client, line => Interlocked.Add(ref events, line.StartsWith("data: ", StringComparison.Ordinal) ? 1 : 0), end.Token)))
            .Concat(Enumerable.Range(0, Readers).Select(i => Task.Run(() => Ask(client, i, good => Interlocked.Increment(ref good ? ref answers : ref failed), end.Token)))).ToList();
        while (Console.ReadLine() is { } line)
        {
            if (line == "begin")
            {
                (events, answers, failed) = (0, 0, 0);
            }
            else
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Interlocked.Read(ref events)} {Interlocked.Read(ref answers)} {Interlocked.Read(ref failed)}"));
            }
        }

        end.Cancel();
        Task.WhenAll(tasks).ContinueWith(_ => { }).Wait();
        return 0;
    }

    /// <summary>Follows live until told to end.</summary>
    public static async Task Follow(HttpClient client, Action<string> hear, CancellationToken end)
    {
        using var reader = new StreamReader(await client.GetStreamAsync("api/v1/live", end));
        while (await reader.ReadLineAsync(end) is { } line)
        {
            hear(line);
        }
    }

    private static async Task Ask(HttpClient client, int first, Action<bool> answered, CancellationToken end)
    {
        for (var i = first; ; i++)
        {
            using var answer = await client.GetAsync(Paths[i % Paths.Length], end);
            _ = await answer.Content.ReadAsByteArrayAsync(end);
            answered(answer.IsSuccessStatusCode);
            await Task.Delay(1000, end);
        }
    }
}
