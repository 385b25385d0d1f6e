using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>Measures what the running daemon costs, its sensor of 4 kHz and three axes at the other end of a pseudo-terminal: processor and memory after the start.</summary>
[SupportedOSPlatform("linux")]
internal static class WatchCost
{
    private const double MostPercent = 3, MostMiB = 90;

    /// <summary>Runs with: the built program, seconds, 30 where not given, and "outputs" where page, broker, webhook and captures are to be on.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: watch-cost STROKEWATCH.DLL|EXECUTABLE [SECONDS [outputs]]");
            return 2;
        }

        var seconds = arguments.Length > 1 ? double.Parse(arguments[1], CultureInfo.InvariantCulture) : 30;
        var folder = Directory.CreateTempSubdirectory("strokewatch-cost").FullName;
        try
        {
            using var sink = arguments.Length > 2 && arguments[2] == "outputs" ? new OutputSink(folder) : null;
            using var cable = PseudoTerminal.Create();
            using var feed = new TrayFeed(cable, _ => 1.7);
            using var sensor = new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            File.WriteAllText(Path.Combine(folder, "cullet.feeder.toml"), DemoFeeder.Toml);
            File.WriteAllText(
                Path.Combine(folder, "watch.toml"),
                $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{cable.SlavePath}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n{sink?.Toml}");
            var (program, rest) = BuiltProgram.Command(Path.GetFullPath(arguments[0]), "watch", "--config", "watch.toml");
            var start = new ProcessStartInfo(program, rest) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
            using var daemon = Process.Start(start)!;
            var said = Task.WhenAll(daemon.StandardOutput.ReadToEndAsync(), daemon.StandardError.ReadToEndAsync());
            Thread.Sleep(2000);
            sensor.Start();
            Thread.Sleep(6000);
            var (before, watch) = (ProcessFigures.ProcessorSeconds(daemon), Stopwatch.StartNew());
            Thread.Sleep(TimeSpan.FromSeconds(seconds));
            sink?.Check();
            var percent = 100 * (ProcessFigures.ProcessorSeconds(daemon) - before) / watch.Elapsed.TotalSeconds;
            var (resident, peak) = (ProcessFigures.ResidentMiB(daemon), ProcessFigures.MiB(daemon, "VmHWM:"));
            Termination.Ask(daemon);
            daemon.WaitForExit();
            Check(Path.Combine(folder, "store.db"), seconds, said.Result);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"over {seconds:0} s: {resident:0.0} MiB resident at the end, {peak:0.0} MiB at most, {sensor.DroppedFrames} frames lost"));
            var targets = new Targets();
            targets.Below("watch, share of one core", percent, MostPercent, "%");
            targets.Below("watch, resident memory at most", peak, MostMiB, "MiB");
            return targets.Status;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Makes sure that the daemon measured and did not just wait.</summary>
    private static void Check(string store, double seconds, string[] said)
    {
        using var reader = new StoreReader(store);
        var windows = reader.Windows(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000));
        if (windows.Count(window => window.Reading.StrokeMetres is > 1.69e-3 and < 1.71e-3) < 1.8 * seconds)
        {
            throw new InvalidOperationException($"the daemon measured too few windows; it said:\n{string.Join('\n', said)}");
        }
    }
}
