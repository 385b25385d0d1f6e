using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Text.RegularExpressions;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// Runs the daemon with eight sensors on eight cables, a tray that goes over its limit again and again, first alone and then with 20 pages that follow live and 50 readers
/// that ask the API without end, in a process behind all others: how late windows and alarms come to one more follower, before and during, in one run.
/// </summary>
[SupportedOSPlatform("linux")]
internal static partial class PageLoad
{
    private const double HalfPeriodSeconds = 1.6, WindowSeconds = 0.5, MostLatencyRatio = 1.1, MostLateMilliseconds = 100;

    private static readonly string[] Places = [.. new[] { SensorPlace.Front, SensorPlace.Rear, SensorPlace.Left, SensorPlace.Right, SensorPlace.FrontLeft, SensorPlace.FrontRight, SensorPlace.RearLeft, SensorPlace.Body }.Select(SensorPlaces.Name)];

    /// <summary>Runs with: the built program, and seconds a part, 30 where not given.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: page-load STROKEWATCH.DLL|EXECUTABLE [SECONDS]");
            return 2;
        }

        var seconds = arguments.Length > 1 ? double.Parse(arguments[1], CultureInfo.InvariantCulture) : 30;
        var folder = Directory.CreateTempSubdirectory("strokewatch-page").FullName;
        List<IDisposable> held = [];
        try
        {
            List<PseudoTerminal> cables = [.. Places.Select(_ => PseudoTerminal.Create())];
            List<TrayFeed> feeds = [.. cables.Select(cable => new TrayFeed(cable, Stroke) { Urgent = true })];
            List<SimulatedSensor> sensors = [.. feeds.Select(feed => new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System))];
            held.AddRange([.. sensors, .. feeds, .. cables]);
            using var daemon = Start(arguments[0], folder, cables, out var address);
            sensors.ForEach(sensor => sensor.Start());
            return Measure(daemon, address, feeds[0], sensors, seconds);
        }
        finally
        {
            held.ForEach(one => one.Dispose());
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Stroke(double t) => t < 3 || (int)(t / HalfPeriodSeconds) % 2 == 0 ? 1.7 : 2.05;

    private static Process Start(string program, string folder, List<PseudoTerminal> cables, out Uri address)
    {
        File.WriteAllText(Path.Combine(folder, "cullet.feeder.toml"), DemoFeeder.Toml.Split("[sensor]")[0] + string.Concat(Places.Select(place => $"[[sensors]]\nplace = \"{place}\"\nfull_scale_g = 32\n")));
        File.WriteAllText(
            Path.Combine(folder, "watch.toml"),
            "feeder = \"cullet.feeder.toml\"\n" + string.Concat(cables.Select((cable, i) => $"[[sensor]]\nport = \"{cable.SlavePath}\"\nprotocol = \"frames\"\nplace = \"{Places[i]}\"\n"))
            + "[store]\npath = \"store.db\"\n[page]\nlisten = \"127.0.0.1:0\"\n[alarms]\ndanger_after_s = 0\ndanger_clear_s = 0\nband_after_s = 3600\n");
        var (command, rest) = BuiltProgram.Command(Path.GetFullPath(program), "watch", "--config", "watch.toml");
        var daemon = Process.Start(new ProcessStartInfo(command, rest) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var said = "";
        while (Told().Match(said) is var told && !told.Success)
        {
            said += (daemon.StandardOutput.ReadLine() ?? throw new InvalidOperationException($"the daemon ended: {said}{daemon.StandardError.ReadToEnd()}")) + "\n";
        }

        address = new(Told().Match(said).Groups[1].Value);
        _ = daemon.StandardOutput.ReadToEndAsync();
        _ = daemon.StandardError.ReadToEndAsync();
        return daemon;
    }

    private static int Measure(Process daemon, Uri address, TrayFeed feed, List<SimulatedSensor> sensors, double seconds)
    {
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 200 }) { BaseAddress = address };
        using var end = new CancellationTokenSource();
        var probe = new Probe();
        var tasks = new List<Task> { Task.Run(() => PageReaders.Follow(client, probe.Hear, end.Token)) };
        Thread.Sleep(8000);
        long Dropped() => sensors.Sum(sensor => sensor.DroppedFrames);
        var before = Dropped();
        var (alone, aloneCost) = Part(daemon, probe, feed, seconds);
        var between = Dropped();
        using var load = Load(address);
        Thread.Sleep(5000);
        load.StandardInput.WriteLine("begin");
        var during = Dropped();
        var (among, amongCost) = Part(daemon, probe, feed, seconds);
        load.StandardInput.WriteLine("tell");
        var told = load.StandardOutput.ReadLine()!.Split(' ').Select(number => long.Parse(number, CultureInfo.InvariantCulture)).ToList();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{PageReaders.Followers} pages took {told[0] / seconds:0} events a second, {PageReaders.Readers} readers {told[1] / seconds:0} answers a second, {told[2]} refused; the daemon took {aloneCost:0.0} % of a core before and {amongCost:0.0} % during"));
        Console.WriteLine($"the load is a process of its own at nice 19, the sensors' writers {(ThreadPriority.Raised ? "are at nice -10" : "could not be raised above nice 0 (that needs root)")}: what is measured is the daemon, not the want of a third processor");
        var lost = Dropped() - during;
        load.StandardInput.Close();
        load.WaitForExit();
        end.Cancel();
        Task.WhenAll(tasks).ContinueWith(_ => { }).Wait();
        Termination.Ask(daemon);
        daemon.WaitForExit();
        Tell("alone", alone);
        Tell("among readers", among);
        Console.WriteLine($"frames lost at the cables: {before} while starting, {between - before} alone, {during - between} while readers came, {lost} among readers");
        var targets = new Targets();
        targets.Below("alarm at a follower, median, among readers over alone", Middle(among.Alarms) / Middle(alone.Alarms), MostLatencyRatio, "times");
        targets.Below("windows later than their grid, 95 in 100, among readers", At(among.Late, 0.95), MostLateMilliseconds, "ms");
        targets.AtLeast("windows heard, among readers over alone", (double)among.Late.Count / alone.Late.Count, 0.98, "times");
        targets.Below("frames lost at the cables, among readers", lost, 1, "frames");
        return targets.Status;
    }

    /// <summary>Starts the readers behind all other processes; pages and readers elsewhere take none of this machine's time either.</summary>
    private static Process Load(Uri address) => Process.Start(new ProcessStartInfo("nice", ["-n", "19", Environment.ProcessPath!, .. Environment.ProcessPath!.EndsWith("dotnet", StringComparison.Ordinal) ? ["exec", typeof(PageLoad).Assembly.Location] : Array.Empty<string>(), "page-readers", address.ToString()])
    {
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
    })!;

    /// <summary>Listens for a while: how late windows are against their own even grid, and how long after the first sample over the limit an alarm is heard, both in ms.</summary>
    private static ((List<double> Late, List<double> Alarms) Heard, double Percent) Part(Process daemon, Probe probe, TrayFeed feed, double seconds)
    {
        probe.Clear();
        daemon.Refresh();
        var (spent, watch) = (daemon.TotalProcessorTime, Stopwatch.StartNew());
        Thread.Sleep(TimeSpan.FromSeconds(seconds));
        daemon.Refresh();
        var percent = 100 * (daemon.TotalProcessorTime - spent) / watch.Elapsed;
        var (windows, alarms) = probe.Take();
        var offsets = windows.Select(one => Stopwatch.GetElapsedTime(windows[0].At, one.At).TotalSeconds - WindowSeconds * (one.Number - windows[0].Number)).ToList();
        return (([.. offsets.Select(offset => 1e3 * (offset - offsets.Min()))], [.. alarms.Select(at => Since(feed, at))]), percent);
    }

    /// <summary>Gives the ms from the last rise of the stroke before an instant.</summary>
    private static double Since(TrayFeed feed, long at)
    {
        var period = 2 * HalfPeriodSeconds;
        for (var n = 1; ; n++)
        {
            var next = feed.ArrivalOrNull((long)Math.Ceiling(((n + 1) * period - HalfPeriodSeconds) * TraySignal.RateHz));
            if (next is null || next > at)
            {
                return Stopwatch.GetElapsedTime(feed.ArrivalOrNull((long)Math.Ceiling((n * period - HalfPeriodSeconds) * TraySignal.RateHz))!.Value, at).TotalMilliseconds;
            }
        }
    }

    private static void Tell(string name, (List<double> Late, List<double> Alarms) part) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{name}: {part.Late.Count} windows, late by {Middle(part.Late):0.0} ms (median), {At(part.Late, 0.95):0.0} ms (95 in 100), {part.Late.Max():0.0} ms (worst); {part.Alarms.Count} alarms, {Middle(part.Alarms):0} ms (median), {part.Alarms.Max():0} ms (worst) after the first sample over the limit"));

    private static double Middle(List<double> values) => At(values, 0.5);

    private static double At(List<double> values, double share) => values.Count == 0 ? throw new InvalidOperationException("nothing was heard") : values.Order().ElementAt(Math.Min(values.Count - 1, (int)(share * values.Count)));

    [GeneratedRegex(@"Page: (http://127\.0\.0\.1:\d+/)\s")]
    private static partial Regex Told();

    /// <summary>One more follower, which notes when each window and each alarm comes.</summary>
    private sealed partial class Probe
    {
        private readonly List<(long Number, long At)> windows = [];
        private readonly List<long> alarms = [];
        private bool stands;

        public void Hear(string line)
        {
            if (!line.StartsWith("data: ", StringComparison.Ordinal) || !line.Contains("\"verdict\"", StringComparison.Ordinal))
            {
                return;
            }

            var at = Stopwatch.GetTimestamp();
            var number = long.Parse(Count().Match(line).Groups[1].Value, CultureInfo.InvariantCulture);
            var now = Over().IsMatch(line);
            lock (windows)
            {
                if (windows.Count == 0 || windows[^1].Number < number)
                {
                    windows.Add((number, at));
                }

                if (now && !stands)
                {
                    alarms.Add(at);
                }

                stands = now;
            }
        }

        public void Clear() => _ = Take();

        public (List<(long Number, long At)> Windows, List<long> Alarms) Take()
        {
            lock (windows)
            {
                var taken = (windows.ToList(), alarms.ToList());
                windows.Clear();
                alarms.Clear();
                return taken;
            }
        }

        [GeneratedRegex("\"windows\":(\\d+)")]
        private static partial Regex Count();

        [GeneratedRegex("\"id\":\"over-stroke\"[^}]*\"stands\":true")]
        private static partial Regex Over();
    }
}
