using System.Diagnostics;
using System.Globalization;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks.Sturdy;

/// <summary>
/// Days of simulated running at speed through the whole daemon (decoder, measurement, alarms, store with its purge, machine book, history) on a driven clock: memory, threads and
/// open files after the last third beside those after the first.
/// </summary>
internal static class LongRun
{
    private const double SecondsADay = 86_400;
    private const double LoopSeconds = 60;
    private const int Calms = 9;

    /// <summary>Runs with: how many days, 10 where not given.</summary>
    public static int Run(string[] arguments)
    {
        var days = arguments.Length > 0 ? double.Parse(arguments[0], CultureInfo.InvariantCulture) : 10;

        // On the disk each commit would wait for it, at thousands of times the pace that it has on a board.
        var folder = Directory.CreateDirectory(Path.Combine(Directory.Exists("/dev/shm") ? "/dev/shm" : Path.GetTempPath(), $"strokewatch-long-{Environment.ProcessId}")).FullName;
        try
        {
            return Run(days, folder);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Run(double days, string folder)
    {
        var (time, watch, store) = (new DrivenTime(), Stopwatch.StartNew(), Path.Combine(folder, "store.db"));
        using var stop = new CancellationTokenSource();
        var port = new LoopPort(time, Calm, Life, Calms, days * SecondsADay, stop.Cancel);
        var run = new WatchRun
        {
            Feeder = DemoScenario.Feeder with { Supply = new() { FullVolts = 230 } },
            Store = new(store, 1),
            Delays = new() { DangerOn = 0.5 },
            LogLevel = Configuration.LogLevelName.Error,
            History = new() { Stretches = new(), Learning = new(), BaselinePath = Path.Combine(folder, "cullet.baseline.json") },
            Book = Path.Combine(folder, "cullet.book.sqlite"),
            Terminal = false,
            Output = TextWriter.Null,
            Time = time,
        };
        var running = Task.Factory.StartNew(() => run.Run([tell => LiveSensors.Make(new(), port, time, tell)], stop.Token), TaskCreationOptions.LongRunning);
        Figures? first = null;
        while (!running.Wait(20))
        {
            if (first is null && port.Given >= days * SecondsADay / 3)
            {
                first = Figures.Now();
            }
        }

        var raised = running.Result;
        var last = Figures.Now();
        return Tell(days, watch.Elapsed.TotalSeconds, raised, store, first ?? throw new InvalidOperationException("too short a run to look twice"), last);
    }

    private static int Tell(double days, double seconds, int raised, string store, Figures first, Figures last)
    {
        using var reader = new StoreReader(store);
        var (from, to) = (DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000));
        var kept = reader.Windows(from, to, 1_000_000);
        var gap = reader.Events(from, to, 1_000_000).Count(stored => stored.Kind is StoreEventKind.StoreGap or StoreEventKind.StoreTrouble);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{days:0.###} days in {seconds:0.0} s, {days * SecondsADay / seconds:0} times real time; {raised} alarms, {kept.Count} windows kept, store {new FileInfo(store).Length / 1048576.0:0.0} MiB"));
        Console.WriteLine($"after a third: {first}");
        Console.WriteLine($"at the end:    {last}");
        var targets = new Targets();
        targets.Below("heap grown", last.HeapMiB - first.HeapMiB, 2, "MiB");
        targets.Below("resident memory grown", last.ResidentMiB - first.ResidentMiB, 16, "MiB");
        targets.Below("open files grown", last.Files - first.Files, 1, "");
        targets.Below("threads grown", last.Threads - first.Threads, 3, "");
        targets.Below("times the store lost or could not write rows", gap, 1, "");
        targets.AtLeast("alarms raised", raised, Math.Floor(0.8 * days * SecondsADay / (LoopSeconds * (Calms + 1))), "");

        // A day of windows is kept, and at most a day and an hour more, until the daily purge.
        targets.Below("days of windows kept", kept.Sum(window => window.Reading.LengthSeconds) / SecondsADay, 2.1, "");
        targets.AtLeast("days of windows kept", kept.Sum(window => window.Reading.LengthSeconds) / SecondsADay, 0.95 * Math.Min(1, days), "");
        return targets.Status;
    }

    /// <summary>A minute in which nothing happens.</summary>
    private static FeederScenario Calm => Life with { Supply = new() };

    /// <summary>A minute: it runs, goes over its limit, comes back, is switched off, swings out and starts anew.</summary>
    private static FeederScenario Life => new()
    {
        Name = "A minute of a cullet feeder",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = LoopSeconds,
        Stroke = Length.FromMillimetres(1.71),
        Supply = new() { Voltage = [(0, 100), (20, 100), (24, 107.5), (30, 107.5), (34, 100)], On = [(0, 50), (56, LoopSeconds)] },
        SupplyChannel = new(),
        Sensor = new() { RateHz = 1600, NoiseG = 0.03 },
    };

    /// <summary>What the process takes.</summary>
    private sealed record Figures(double HeapMiB, double ResidentMiB, int Files, int Threads)
    {
        public static Figures Now()
        {
            using var self = Process.GetCurrentProcess();
            var heap = GC.GetTotalMemory(forceFullCollection: true) / 1048576.0;
            return new(heap, ProcessFigures.ResidentMiB(self), Directory.GetFiles("/proc/self/fd").Length, Directory.GetDirectories("/proc/self/task").Length);
        }

        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"heap {HeapMiB:0.0} MiB, resident {ResidentMiB:0.0} MiB, {Files} open files, {Threads} threads");
    }
}
