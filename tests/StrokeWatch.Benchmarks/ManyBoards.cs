using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Benchmarks;

/// <summary>Many daemons, each with a sensor of its own at a pseudo-terminal, forward to one real time-series server: rows a second, bytes a row on the wire, and whether the server holds every row once.</summary>
[SupportedOSPlatform("linux")]
internal static class ManyBoards
{
    private const int SettleMilliseconds = 15_000;

    /// <summary>Runs with: the built program, how many boards, 10 where not given, and seconds, 60.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 1)
        {
            Console.Error.WriteLine("usage: many-boards STROKEWATCH.DLL|EXECUTABLE [BOARDS [SECONDS]]");
            return 2;
        }

        var count = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 10;
        var seconds = arguments.Length > 2 ? double.Parse(arguments[2], CultureInfo.InvariantCulture) : 60;
        var folder = Directory.CreateTempSubdirectory("strokewatch-boards").FullName;
        try
        {
            using var server = new SeriesServer();
            List<Board> boards = [];
            try
            {
                boards.AddRange(Enumerable.Range(1, count).Select(i => new Board(Path.GetFullPath(arguments[0]), Path.Combine(folder, $"{i}"), Name(i), server.Url)));
                Thread.Sleep(SettleMilliseconds);
                var (rows, bytes, requests, watch) = (server.Rows(), server.BytesTaken, server.Requests, Stopwatch.StartNew());
                var processor = boards.Sum(board => board.ProcessorSeconds);
                Thread.Sleep(TimeSpan.FromSeconds(seconds));
                var took = watch.Elapsed.TotalSeconds;
                processor = (boards.Sum(board => board.ProcessorSeconds) - processor) / took / count;
                var (more, carried, asked) = (server.Rows() - rows, server.BytesTaken - bytes, server.Requests - requests);
                boards.ForEach(board => board.Stop());
                return Tell(count, took, more, carried, asked, 100 * processor, [.. boards.Select(board => board.Windows())], server.Ids());
            }
            finally
            {
                boards.ForEach(board => board.Dispose());
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static int Tell(int boards, double seconds, long rows, long bytes, long requests, double processor, long[] stored, Dictionary<string, List<long>> held)
    {
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{boards} boards, {seconds:0} s: {rows / seconds:0.00} windows a second at the server, {rows / seconds / boards:0.000} a board; {bytes / (double)rows:0} bytes a row on the wire, headers and what else is told among them; {requests / seconds / boards:0.00} requests a second a board of {rows / (double)requests:0.0} rows; {processor:0.0} % of a core a board"));
        var targets = new Targets();
        targets.AtLeast("windows a second a board", rows / seconds / boards, 1.9, "");
        targets.AtLeast("windows of all stores", stored.Sum(), 1.8 * seconds * boards, "rows");

        // What is measured in the last seconds before the end stays in the store for the next start.
        var wrong = Enumerable.Range(1, boards).Count(i => !held.TryGetValue(Name(i), out var ids) || ids.Count > stored[i - 1] || !ids.SequenceEqual(Enumerable.Range(1, ids.Count).Select(id => (long)id)));
        targets.Below("boards of which the server does not hold the windows from the first on, each once", wrong, 1, "boards");
        return targets.Status;
    }

    private static string Name(int board) => string.Create(CultureInfo.InvariantCulture, $"Cullet feeder {board}");

    private sealed class Board : IDisposable
    {
        private readonly PseudoTerminal cable = PseudoTerminal.Create();
        private readonly TrayFeed feed;
        private readonly SimulatedSensor sensor;
        private readonly Process daemon;
        private readonly string folder;

        public Board(string program, string folder, string name, Uri server)
        {
            this.folder = folder;
            Directory.CreateDirectory(folder);
            feed = new(cable, _ => 1.7);
            sensor = new(feed, feed, new() { RateHz = TraySignal.RateHz, FullScale = 32 * Gravity.Standard }, TimeProvider.System);
            File.WriteAllText(Path.Combine(folder, "cullet.feeder.toml"), DemoFeeder.Toml.Replace("\"Cullet feeder\"", $"\"{name}\"", StringComparison.Ordinal));
            File.WriteAllText(
                Path.Combine(folder, "watch.toml"),
                $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{cable.SlavePath}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n[influx]\nurl = \"{server}\"\norg = \"glass\"\nbucket = \"feeders\"\n");
            var (file, rest) = BuiltProgram.Command(program, "watch", "--config", "watch.toml");
            daemon = Process.Start(new ProcessStartInfo(file, rest) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
            daemon.OutputDataReceived += static (_, _) => { };
            daemon.BeginOutputReadLine();
            daemon.BeginErrorReadLine();
            sensor.Start();
        }

        public double ProcessorSeconds => ProcessFigures.ProcessorSeconds(daemon);

        public void Stop()
        {
            Termination.Ask(daemon);
            daemon.WaitForExit();
        }

        public long Windows()
        {
            using var reader = new StoreReader(Path.Combine(folder, "store.db"));
            return reader.Windows(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(1000), int.MaxValue).Count;
        }

        public void Dispose()
        {
            if (!daemon.HasExited)
            {
                daemon.Kill();
                daemon.WaitForExit();
            }

            daemon.Dispose();
            sensor.Dispose();
            feed.Dispose();
            cable.Dispose();
        }
    }
}
