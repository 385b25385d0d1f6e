using System.Diagnostics;
using System.Globalization;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Store;

public sealed class KilledWriterTests(ITestOutputHelper output) : IDisposable
{
    private const int Kills = 25;
    private const int Seed = 4711;
    private const long RowsApart = 1_000_000;
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-kill-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_writer_killed_at_any_instant_loses_no_row_that_it_confirmed()
    {
        var database = Path.Combine(folder, "store.db");
        var random = new Random(Seed);
        var windows = new List<long>();
        var alarms = new List<long>();
        for (var kill = 0; kill < Kills; kill++)
        {
            // Every fifth kill may fall into the start, when the journal of the kill before is brought in.
            var fromStart = kill % 5 == 4;
            var patience = TimeSpan.FromMilliseconds(random.Next(fromStart ? 600 : 300));
            foreach (var line in await WriteAndKill(database, kill * RowsApart, patience, fromStart))
            {
                (line[0] == 'W' ? windows : alarms).Add(long.Parse(line.AsSpan(2), NumberStyles.None, CultureInfo.InvariantCulture));
            }

            using var check = new StoreReader(database);
            var broken = check.IntegrityCheck();
            Assert.True(broken is null, $"seed {Seed}, kill {kill}: {broken}");
        }

        using var reader = new StoreReader(database);
        var heldWindows = reader.Windows(DateTimeOffset.UnixEpoch, Future, int.MaxValue).Select(w => (long)w.Reading.StartSeconds).ToHashSet();
        var heldAlarms = reader.Alarms(DateTimeOffset.UnixEpoch, Future, int.MaxValue).Select(a => (long)a.Transition.AtSeconds).ToHashSet();
        Assert.True(windows.TrueForAll(heldWindows.Contains), $"seed {Seed}: a confirmed window is missing");
        Assert.True(alarms.TrueForAll(heldAlarms.Contains), $"seed {Seed}: a confirmed alarm is missing");
        Assert.DoesNotContain(reader.Events(DateTimeOffset.UnixEpoch, Future), e => e.Kind == StoreEventKind.StoreReplaced);
        output.WriteLine($"{Kills} kills, {windows.Count} windows and {alarms.Count} alarms confirmed, none lost");
        Assert.True(windows.Count > 20 * Kills, $"only {windows.Count} windows were confirmed: the test shows nothing");
        Assert.True(alarms.Count > Kills, $"only {alarms.Count} alarms were confirmed: the test shows nothing");
    }

    /// <summary>Runs the writer, kills it some time after its start or after its first confirmation, and gives the whole lines it printed.</summary>
    private static async Task<IReadOnlyList<string>> WriteAndKill(string database, long first, TimeSpan patience, bool fromStart)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var argument in new[] { "exec", Writer(), "store-writer", database, first.ToString(CultureInfo.InvariantCulture) })
        {
            start.ArgumentList.Add(argument);
        }

        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        var text = new System.Text.StringBuilder();
        var buffer = new char[4096];
        var killed = fromStart;
        if (fromStart)
        {
            KillAfter(process, patience);
        }

        for (int count; (count = await process.StandardOutput.ReadAsync(buffer).AsTask().WaitAsync(TimeSpan.FromSeconds(60))) > 0;)
        {
            text.Append(buffer, 0, count);
            if (!killed)
            {
                killed = true;
                KillAfter(process, patience);
            }
        }

        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 137, $"the writer ended by itself: {await errors}");

        // The kill may cut the last line: only whole lines are confirmations.
        return text.ToString().Split('\n')[..^1];
    }

    private static void KillAfter(Process process, TimeSpan patience) =>
        _ = Task.Delay(patience).ContinueWith(_ => process.Kill(), TaskScheduler.Default);

    private static string Writer()
    {
        var own = Path.DirectorySeparatorChar + "StrokeWatch.EndToEnd.Tests" + Path.DirectorySeparatorChar;
        var path = AppContext.BaseDirectory.Replace(own, own.Replace("EndToEnd.Tests", "Benchmarks", StringComparison.Ordinal), StringComparison.Ordinal);
        path = Path.Combine(path, "StrokeWatch.Benchmarks.dll");
        Assert.True(File.Exists(path), $"{path} is missing: build the whole solution first");
        return path;
    }
}
