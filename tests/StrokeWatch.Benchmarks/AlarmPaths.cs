using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Runtime.Versioning;
using System.Text;
using System.Text.Json;
using MQTTnet;
using MQTTnet.Protocol;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// Times the ways of an alarm out of the daemon: from the first sample beyond the limit, and from the last sample of the window that shows it, to the relay's line, to somebody at a real broker and
/// to somebody who follows the page's events. The alarm is the stroke above its band, for that one ends by itself; it has no on-delay.
/// </summary>
[SupportedOSPlatform("linux")]
internal static class AlarmPaths
{
    private const double HalfPeriodSeconds = 1.1, HealthySeconds = 6.6;
    private const double MostMilliseconds = 1000;

    /// <summary>Runs with: how many alarms, 300 where not given.</summary>
    public static int Run(string[] arguments)
    {
        var times = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 300;
        var folder = Directory.CreateTempSubdirectory("strokewatch-paths").FullName;
        try
        {
            using var broker = new Broker();
            using var cable = PseudoTerminal.Create();
            using var feed = new TrayFeed(cable, t => High(t) ? 1.85 : 1.7);
            using var sensor = new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            using var stop = new CancellationTokenSource();
            using var line = new Line();
            var (store, page) = (Path.Combine(folder, "store.db"), new IPEndPoint(IPAddress.Loopback, Broker.FreePort()));
            var run = new WatchRun
            {
                Feeder = DemoScenario.Feeder,
                Store = new(store, 1),
                Delays = new() { BandOn = 0, BandOff = 0 },
                LogLevel = LogLevelName.Error,
                Terminal = false,
                Output = TextWriter.Null,
                Page = new(page, [], Needed: true),
                Mqtt = new() { Host = "127.0.0.1", Port = broker.Port, Topic = "cullet" },
                Relay = new() { Chip = 0, Line = 1, Alarms = [AlarmKind.HighStroke] },
                RelayLine = () => line,
                Captures = new() { Folder = Path.Combine(folder, "captures"), Longest = TimeSpan.FromSeconds(60) },
                Time = TimeProvider.System,
            };
            var port = SerialPorts.Opener(new() { Path = cable.SlavePath });
            var watching = Task.Factory.StartNew(() => run.Run([tell => LiveSensors.Make(new(), port, TimeProvider.System, tell)], stop.Token), TaskCreationOptions.LongRunning);
            Thread.Sleep(2000);
            var told = new Stamps();
            using var listener = Listen(broker.Port, told).GetAwaiter().GetResult();
            var seen = new Stamps();
            var following = Follow(page, seen, stop.Token);
            sensor.Start();
            var patience = Stopwatch.StartNew();
            while (seen.Count < times && !watching.IsCompleted && patience.Elapsed.TotalSeconds < 30 + 2.5 * HalfPeriodSeconds * times)
            {
                Thread.Sleep(100);
            }

            Thread.Sleep(300);
            stop.Cancel();
            watching.Wait();
            following.Wait();
            return sensor.DroppedFrames > 0 ? throw new InvalidOperationException("frames were lost on the way; the samples cannot be counted")
                : Tell(store, feed, times, [("relay", line.Drops.All), ("broker", told.All), ("page", seen.All)]);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static bool High(double t) => t >= HealthySeconds && (int)Math.Floor(t / HalfPeriodSeconds + 1e-9) % 2 == 1;

    private static int Tell(string store, TrayFeed feed, int times, (string Name, long[] Stamps)[] paths)
    {
        using var reader = new StoreReader(store);
        var raised = reader.Alarms(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000)).Where(alarm => alarm.Transition is { Kind: AlarmKind.HighStroke, Raised: true })
            .Select(alarm => alarm.Transition.AtSeconds).ToList();
        var targets = new Targets();
        foreach (var (name, stamps) in paths)
        {
            if (raised.Count < times || stamps.Length < times)
            {
                throw new InvalidOperationException($"{raised.Count} alarms were raised, {name} had {stamps.Length}, {times} were wanted");
            }

            // The first alarm, in which code runs for the first time, is not left out.
            var pairs = raised.Take(times).Zip(stamps).ToList();
            var fromWindow = Sorted(pairs, at => (long)Math.Round(at * TraySignal.RateHz) - 1, feed);
            var fromFirst = Sorted(pairs, at => (long)Math.Round(Begun(at) * TraySignal.RateHz), feed);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{name,-7} {times} alarms; first sample beyond the limit: median {At(fromFirst, 0.5):0} ms, 99 % {At(fromFirst, 0.99):0} ms; last sample of the window: median {At(fromWindow, 0.5):0.0} ms, 99 % {At(fromWindow, 0.99):0.0} ms, worst {fromWindow[^1]:0.0} ms"));
            if (fromWindow[0] < 0 || fromFirst[^1] > 4 * MostMilliseconds)
            {
                throw new InvalidOperationException($"{name}: an alarm came before its window's last sample, or was taken for another");
            }

            targets.Below($"{name}, 99 % from the first sample beyond the limit", At(fromFirst, 0.99), MostMilliseconds, "ms");
        }

        return targets.Status;
    }

    /// <summary>Gives when the stretch beyond the limit began in which an instant lies.</summary>
    private static double Begun(double at)
    {
        var half = (int)Math.Floor(at / HalfPeriodSeconds + 1e-9);
        return (half % 2 == 1 ? half : half - 1) * HalfPeriodSeconds;
    }

    private static List<double> Sorted(List<(double At, long Heard)> pairs, Func<double, long> sample, TrayFeed feed) =>
        [.. pairs.Select(pair => Stopwatch.GetElapsedTime(feed.Arrival(sample(pair.At)), pair.Heard).TotalMilliseconds).Order()];

    private static double At(List<double> sorted, double share) => sorted[Math.Min(sorted.Count - 1, (int)Math.Ceiling(share * sorted.Count) - 1)];

    private static async Task<IMqttClient> Listen(int port, Stamps told)
    {
        var client = new MqttClientFactory().CreateMqttClient();
        client.ApplicationMessageReceivedAsync += message =>
        {
            var now = Stopwatch.GetTimestamp();
            using var json = JsonDocument.Parse(message.ApplicationMessage.Payload);
            if (json.RootElement.GetProperty("kind").GetString() == "high-stroke" && json.RootElement.GetProperty("raised").GetBoolean())
            {
                told.Add(now);
            }

            return Task.CompletedTask;
        };
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithTlsOptions(tls => tls.UseTls(false)).Build());
        await client.SubscribeAsync(new MqttTopicFilterBuilder().WithTopic("strokewatch/cullet/alarm").WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build());
        return client;
    }

    private static async Task Follow(IPEndPoint page, Stamps seen, CancellationToken stop)
    {
        using var client = new HttpClient { Timeout = Timeout.InfiniteTimeSpan };
        try
        {
            using var stream = await client.GetStreamAsync(new Uri($"http://{page}/api/v1/live"), stop);
            using var reader = new StreamReader(stream, Encoding.UTF8);
            var stood = false;
            while (await reader.ReadLineAsync(stop) is { } text)
            {
                var now = Stopwatch.GetTimestamp();
                if (!text.StartsWith("data: ", StringComparison.Ordinal))
                {
                    continue;
                }

                using var json = JsonDocument.Parse(text.AsMemory(6));
                if (!json.RootElement.TryGetProperty("alarms", out var alarms))
                {
                    continue;
                }

                var stands = alarms.EnumerateArray().Any(alarm => alarm.GetProperty("kind").GetString() == "high-stroke" && alarm.GetProperty("stands").GetBoolean());
                if (stands && !stood)
                {
                    seen.Add(now);
                }

                stood = stands;
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException or HttpRequestException)
        {
            // The daemon has ended.
        }
    }

    /// <summary>Instants noted by one thread and counted by another.</summary>
    private sealed class Stamps
    {
        private readonly List<long> stamps = [];

        public int Count
        {
            get
            {
                lock (stamps)
                {
                    return stamps.Count;
                }
            }
        }

        public long[] All
        {
            get
            {
                lock (stamps)
                {
                    return [.. stamps];
                }
            }
        }

        public void Add(long stamp)
        {
            lock (stamps)
            {
                stamps.Add(stamp);
            }
        }
    }

    /// <summary>A relay's line that notes when the relay drops.</summary>
    private sealed class Line : IRelayLine
    {
        private bool energised;

        public Stamps Drops { get; } = new();

        public void Write(bool energised)
        {
            if (this.energised && !energised)
            {
                Drops.Add(Stopwatch.GetTimestamp());
            }

            this.energised = energised;
        }

        public void Dispose()
        {
        }
    }
}
