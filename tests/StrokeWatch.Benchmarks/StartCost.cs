using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Runtime.Versioning;
using System.Text;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>
/// Measures what a start of the daemon costs, its sensor of 4 kHz and three axes sending already: to READY=1 at a socket as systemd's, to the first stroke it says,
/// then resident memory and processor share. Programs are taken in turns; targets hold for native ones, a framework-dependent one stands beside them.
/// </summary>
[SupportedOSPlatform("linux")]
internal static class StartCost
{
    private const double MostReadyMilliseconds = 100, MostMiB = 40, SteadySeconds = 10;
    private static readonly string[] NotShipped = [".pdb", ".dbg", ".xml"];

    /// <summary>Runs with: one or several built programs; each is started five times.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: start-cost STROKEWATCH|STROKEWATCH.DLL…");
            return 2;
        }

        var starts = arguments.ToDictionary(program => program, _ => new List<Start>());
        for (var round = 0; round < 5; round++)
        {
            foreach (var (program, list) in starts)
            {
                list.Add(One(program));
            }
        }

        var targets = new Targets();
        foreach (var (program, list) in starts)
        {
            var (ready, reading, memory, share) = (Middle(list, s => s.ReadySeconds), Middle(list, s => s.ReadingSeconds), Middle(list, s => s.MiB), Middle(list, s => s.Percent));
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{Path.GetFileName(program)}: ready {1000 * ready:0} ms ({1000 * list.Min(s => s.ReadySeconds):0} to {1000 * list.Max(s => s.ReadySeconds):0}), first reading {reading:0.00} s, {memory:0.0} MiB resident, {share:0.0} % of one core, {Size(program):0.0} MiB on disk"));
            if (!program.EndsWith(".dll", StringComparison.OrdinalIgnoreCase))
            {
                targets.Below("start to ready", 1000 * ready, MostReadyMilliseconds, "ms");
                targets.Below("resident memory", memory, MostMiB, "MiB");
            }
        }

        return targets.Status;
    }

    private static Start One(string built)
    {
        var folder = Directory.CreateTempSubdirectory("strokewatch-start").FullName;
        try
        {
            using var cable = PseudoTerminal.Create();
            using var feed = new TrayFeed(cable, _ => 1.7);
            using var sensor = new SimulatedSensor(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            File.WriteAllText(Path.Combine(folder, "cullet.feeder.toml"), DemoFeeder.Toml);
            File.WriteAllText(
                Path.Combine(folder, "watch.toml"),
                $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{cable.SlavePath}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n");
            using var supervisor = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified) { ReceiveTimeout = 30_000 };
            supervisor.Bind(new UnixDomainSocketEndPoint(Path.Combine(folder, "notify")));
            var (program, rest) = BuiltProgram.Command(Path.GetFullPath(built), "watch", "--config", "watch.toml");
            var start = new ProcessStartInfo(program, rest) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
            start.Environment["NOTIFY_SOCKET"] = Path.Combine(folder, "notify");
            foreach (var setting in (string[])["DOTNET_gcServer=0", "DOTNET_EnableDiagnostics=0", "DOTNET_GCHeapHardLimit=0x8000000"])
            {
                start.Environment[setting.Split('=')[0]] = setting.Split('=')[1];
            }

            sensor.Start();
            var watch = Stopwatch.StartNew();
            using var daemon = Process.Start(start)!;
            try
            {
                var errors = daemon.StandardError.ReadToEndAsync();
                var buffer = new byte[1024];
                while (!Encoding.UTF8.GetString(buffer, 0, supervisor.Receive(buffer)).StartsWith("READY=1", StringComparison.Ordinal))
                {
                }

                var ready = watch.Elapsed.TotalSeconds;
                while (daemon.StandardOutput.ReadLine() is { } line)
                {
                    if (line.Contains(" mm (", StringComparison.Ordinal))
                    {
                        break;
                    }
                }

                var reading = watch.Elapsed.TotalSeconds;
                if (daemon.HasExited)
                {
                    throw new InvalidOperationException($"the daemon ended; it said: {errors.Result}");
                }

                _ = daemon.StandardOutput.ReadToEndAsync();
                Thread.Sleep(2000);
                var (before, steady) = (ProcessFigures.ProcessorSeconds(daemon), Stopwatch.StartNew());
                Thread.Sleep(TimeSpan.FromSeconds(SteadySeconds));
                var percent = 100 * (ProcessFigures.ProcessorSeconds(daemon) - before) / steady.Elapsed.TotalSeconds;
                return new(ready, reading, ProcessFigures.ResidentMiB(daemon), percent);
            }
            finally
            {
                daemon.Kill();
                daemon.WaitForExit();
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Middle(List<Start> starts, Func<Start, double> figure) => starts.Select(figure).Order().ElementAt(starts.Count / 2);

    private static double Size(string program) => new DirectoryInfo(Path.GetDirectoryName(Path.GetFullPath(program))!).EnumerateFiles()
        .Where(file => !NotShipped.Contains(file.Extension)).Sum(file => file.Length) / 1048576.0;

    private sealed record Start(double ReadySeconds, double ReadingSeconds, double MiB, double Percent);
}
