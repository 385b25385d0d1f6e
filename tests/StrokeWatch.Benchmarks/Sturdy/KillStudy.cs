using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks.Sturdy;

/// <summary>
/// Kills the running daemon at random instants (signal 9), its sensor at a pseudo-terminal and a tray that goes over its limit again and again, and starts it anew: whether a row that somebody
/// had read before a kill is gone or changed afterwards, whether the file as the kill left it is whole, how soon the next run writes, and whether it notes how long nothing was written.
/// </summary>
[SupportedOSPlatform("linux")]
internal static class KillStudy
{
    private const double HalfPeriodSeconds = 0.9, MostStartSeconds = 2;
    private const int LatestMilliseconds = 4500, EarlyMilliseconds = 900, NotedMilliseconds = 1000;

    /// <summary>Runs with: how many kills, a seed, the built program.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length != 3 || !int.TryParse(arguments[0], NumberStyles.None, CultureInfo.InvariantCulture, out var kills) || !int.TryParse(arguments[1], NumberStyles.None, CultureInfo.InvariantCulture, out var seed))
        {
            Console.Error.WriteLine("usage: kill-study KILLS SEED STROKEWATCH.DLL|EXECUTABLE");
            return 2;
        }

        var folder = Directory.CreateTempSubdirectory("strokewatch-kills").FullName;
        try
        {
            using var cable = PseudoTerminal.Create();
            using var feed = new TrayFeed(cable, t => (int)(t / HalfPeriodSeconds) % 2 == 0 ? 1.7 : 2.05);
            using var sensor = new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            File.WriteAllText(Path.Combine(folder, "cullet.feeder.toml"), DemoFeeder.Toml);
            File.WriteAllText(
                Path.Combine(folder, "watch.toml"),
                $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{cable.SlavePath}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n[alarms]\ndanger_after_s = 0\ndanger_clear_s = 0\nband_after_s = 0\nband_clear_s = 0\n");
            sensor.Start();
            return Kill(folder, BuiltProgram.Command(Path.GetFullPath(arguments[2]), "watch", "--config", "watch.toml"), kills, seed);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Kill(string folder, (string Program, string[] Arguments) command, int kills, int seed)
    {
        var random = new Random(seed);
        var seen = new ReadRows(Path.Combine(folder, "store.db"));
        List<double> starts = [], windows = [];
        List<string> broken = [];
        int toldAfter = 0, mayTell = 0, early = 0;
        for (var kill = 0; kill < kills; kill++)
        {
            // Every fifth kill may fall into the start, when what the kill before left is brought in.
            var atStart = kill % 5 == 4;
            var start = new ProcessStartInfo(command.Program, command.Arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
            var gaps = seen.Gaps;
            var watch = Stopwatch.StartNew();
            using var daemon = Process.Start(start)!;
            var said = Task.WhenAll(daemon.StandardOutput.ReadToEndAsync(), daemon.StandardError.ReadToEndAsync());
            var first = atStart ? random.Next(EarlyMilliseconds) : double.PositiveInfinity;
            var (patience, before) = (random.Next(LatestMilliseconds), seen.Windows);
            double? row = null, window = null;
            while (watch.Elapsed.TotalMilliseconds < (row is { } at && !atStart ? 1e3 * at + patience : first))
            {
                if (daemon.HasExited || watch.Elapsed.TotalSeconds > 60)
                {
                    throw new InvalidOperationException($"seed {seed}, run {kill}: the daemon ended by itself, or wrote nothing for a minute; it said:\n{string.Join('\n', said.Result)}");
                }

                var fresh = seen.Look();
                row ??= fresh > 0 ? watch.Elapsed.TotalSeconds : null;
                window ??= seen.Windows > before ? watch.Elapsed.TotalSeconds : null;
                Thread.Sleep(random.Next(1, 12));
            }

            daemon.Kill();
            daemon.WaitForExit();
            var lived = watch.Elapsed.TotalSeconds;
            broken.AddRange(seen.Check().Select(wrong => $"seed {seed}, kill {kill}: {wrong}"));
            early += row is null ? 1 : 0;
            if (row is { } began && kill > 0)
            {
                starts.Add(began);
                if (lived > began + 1e-3 * NotedMilliseconds)
                {
                    mayTell++;
                    toldAfter += seen.Gaps > gaps ? 1 : 0;
                }
            }

            if (kill > 0 && window is { } measured)
            {
                windows.Add(measured);
            }
        }

        return Tell(seen, kills, early, starts, windows, broken, toldAfter, mayTell);
    }

    private static int Tell(ReadRows seen, int kills, int early, List<double> starts, List<double> windows, List<string> broken, int told, int mayTell)
    {
        broken.ForEach(Console.WriteLine);
        Console.WriteLine($"{kills} kills, {early} before the run had written anything; read by others before a kill: {seen}");
        if (starts.Count > 0 && windows.Count > 0)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"from the start of a process to its first row: median {starts.Order().ElementAt(starts.Count / 2):0.00} s; to its first window: median {windows.Order().ElementAt(windows.Count / 2):0.00} s, worst {windows.Max():0.00} s"));
        }

        var targets = new Targets();
        targets.Below("rows lost, changed, or a file damaged", broken.Count, 1, "times");
        targets.AtLeast("rows read before a kill", seen.Count, 5 * kills, "rows");
        targets.AtLeast("starts after a kill that noted how long nothing was written", told, mayTell, string.Create(CultureInfo.InvariantCulture, $"of {mayTell}"));
        targets.Below("first row after a start, worst", starts.Count == 0 ? double.NaN : starts.Max(), MostStartSeconds, "s");
        return targets.Status;
    }
}
