using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Text;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// Times the way from the last sample of an over-stroke window at the cable to the alarm in the daemon's output: port, decoder, chain, store and panel as <c>watch</c> joins
/// them, alarms without delay, and a tray that goes over its limit again and again.
/// </summary>
[SupportedOSPlatform("linux")]
internal static class AlarmLatency
{
    private const double MostMilliseconds = 50, HalfPeriodSeconds = 1.6;

    /// <summary>Runs with: how many alarms, 20 where not given.</summary>
    public static int Run(string[] arguments)
    {
        var times = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 20;
        var folder = Directory.CreateTempSubdirectory("strokewatch-latency").FullName;
        try
        {
            using var cable = PseudoTerminal.Create();
            using var feed = new TrayFeed(cable, t => t < 3 || (int)(t / HalfPeriodSeconds) % 2 == 0 ? 1.7 : 2.05);
            using var sensor = new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            using var stop = new CancellationTokenSource();
            using var ear = new Ear();
            var store = Path.Combine(folder, "store.db");
            var baseline = Path.Combine(folder, "cullet.baseline.json");
            _ = BaselineFile.Add(
                baseline,
                new() { Origin = BaselineOrigin.Told, Made = DateTimeOffset.UnixEpoch, Features = [new() { Name = "stroke_mm", Mean = 1.7, Spread = 0.01 }] },
                new(baseline)) ?? throw new InvalidOperationException("the baseline cannot be written");
            var run = new WatchRun
            {
                Feeder = DemoScenario.Feeder,
                Store = new(store, 1),
                Delays = new() { DangerOn = 0, DangerOff = 0, BandOn = 3600 },
                LogLevel = LogLevelName.Error,

                // Stretches far shorter than any in use, so that summing up and judging fall among the alarms.
                History = new() { Stretches = new() { LongestSeconds = 3, LeastSeconds = 1 }, BaselinePath = baseline },
                Terminal = false,
                Output = ear,
                Time = TimeProvider.System,
            };
            var port = SerialPorts.Opener(new() { Path = cable.SlavePath });
            var watching = Task.Factory.StartNew(
                () => run.Run([tell => LiveSensors.Make(new(), port, TimeProvider.System, tell)], stop.Token), TaskCreationOptions.LongRunning);
            Thread.Sleep(2000);
            sensor.Start();
            var patience = Stopwatch.StartNew();
            while (ear.Alarms.Length < times + 1 && !watching.IsCompleted && patience.Elapsed.TotalSeconds < 20 + 3 * HalfPeriodSeconds * times)
            {
                Thread.Sleep(100);
            }

            stop.Cancel();
            watching.Wait();
            if (sensor.DroppedFrames > 0)
            {
                throw new InvalidOperationException("frames were lost on the way; the samples cannot be counted");
            }

            return Tell(Latencies(store, feed, ear.Alarms), times);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Gives the latencies in ms; the first alarm, in which code runs for the first time, comes first.</summary>
    private static List<double> Latencies(string store, TrayFeed feed, long[] heard)
    {
        using var reader = new StoreReader(store);
        if (reader.NewestStretches(DemoScenario.Feeder.Name, 3).Count < 3 || reader.Findings(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000)).Count == 0)
        {
            throw new InvalidOperationException("no stretches were judged among the alarms");
        }

        var raised = reader.Alarms(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000))
            .Where(alarm => alarm.Transition is { Kind: AlarmKind.OverStroke, Raised: true }).ToList();
        return [.. raised.Zip(heard, (alarm, at) =>
        {
            var last = (long)Math.Round(alarm.Transition.AtSeconds * TraySignal.RateHz) - 1;
            return Stopwatch.GetElapsedTime(feed.Arrival(last), at).TotalMilliseconds;
        })];
    }

    private static int Tell(List<double> latencies, int times)
    {
        if (latencies.Count < times || latencies.Any(latency => latency < 0))
        {
            throw new InvalidOperationException($"{latencies.Count} alarms were heard, {times} were wanted, or one was heard before its last sample");
        }

        Console.WriteLine("ms: " + string.Join(' ', latencies.Select(latency => latency.ToString("0.00", CultureInfo.InvariantCulture))));
        var ordered = latencies.Order().ToList();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{ordered.Count} alarms, median {ordered[ordered.Count / 2]:0.00} ms, worst {ordered[^1]:0.00} ms"));
        var targets = new Targets();
        targets.Below("last sample to alarm, worst", ordered[^1], MostMilliseconds, "ms");
        return targets.Status;
    }

    /// <summary>The daemon's output: it notes when an over-stroke alarm is written.</summary>
    private sealed class Ear : TextWriter
    {
        private readonly List<long> alarms = [];

        public override Encoding Encoding => Encoding.UTF8;

        public long[] Alarms
        {
            get
            {
                lock (alarms)
                {
                    return [.. alarms];
                }
            }
        }

        public override void Write(char value)
        {
        }

        public override void WriteLine(string? value)
        {
            if (value?.Contains("ALARM  OVER-STROKE", StringComparison.Ordinal) == true)
            {
                lock (alarms)
                {
                    alarms.Add(Stopwatch.GetTimestamp());
                }
            }
        }
    }
}
