using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.Configuration;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The whole daemon while the computer's date and zone are not what they should be, and after an upgrade that its configuration does not survive.</summary>
[SupportedOSPlatform("linux")]
public sealed class WrongClockDaemonTests : IDisposable
{
    private readonly TrayBench bench = new();

    private string Store => bench.Folder.At("store.db");

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_date_that_starts_in_1970_and_jumps_by_hours_and_years_costs_no_window_raises_nothing_and_hides_no_lost_sensor()
    {
        Configure();
        var read = WatchFile.Read(bench.Folder.At("watch.toml")).Value!;
        var clock = new WrongClock(TimeProvider.System) { Offset = DateTimeOffset.UnixEpoch.AddMinutes(2) - TimeProvider.System.GetUtcNow() };
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var stop = new CancellationTokenSource();
        var run = new WatchRun
        {
            Feeder = read.Feeder,
            Store = read.Store,
            Delays = read.Alarms,
            CommitInterval = TimeSpan.FromSeconds(0.5),
            Terminal = false,
            LogLevel = LogLevelName.Error,
            Output = new StringWriter(),
            Time = clock,
        };
        var running = Task.Run(() => run.Run(
            [.. read.Ports.Select(port => (Func<Action<SensorEvent>, LiveSensorSource>)(tell => SensorOpening.Open(port, clock, tell)))], stop.Token));
        foreach (var offset in (TimeSpan[])[clock.Offset, TimeSpan.Zero, TimeSpan.FromHours(5), TimeSpan.FromHours(-6), TimeSpan.FromDays(3000), TimeSpan.Zero])
        {
            clock.Offset = offset;
            var before = Windows().Count;
            await Until(() => Windows().Count >= before + 4);
        }

        Assert.Empty(Alarms());
        var pulled = TimeProvider.System.GetTimestamp();
        bench.Sensor.Unplug();
        clock.Offset = TimeSpan.FromHours(-6);
        await Until(() => Alarms().Count == 1);
        Assert.InRange(TimeProvider.System.GetElapsedTime(pulled).TotalSeconds, 0.9, 5);
        await stop.CancelAsync();
        Assert.Equal(1, await running.WaitAsync(TimeSpan.FromSeconds(20)));

        // In the order written, windows follow each other without a hole, whatever their dates say.
        var windows = Windows();
        Assert.All(windows.Zip(windows.Skip(1)), pair => Assert.Equal(pair.First.Reading.StartSeconds + pair.First.Reading.LengthSeconds, pair.Second.Reading.StartSeconds, 1e-3));
        Assert.All(windows.Where(window => window.Reading.StrokeMetres is not null), window => Assert.Equal(Verdict.InBand, window.Verdict));
        Assert.Contains(windows, window => window.Utc.Year == 1970);
        Assert.Contains(windows, window => window.Utc > TimeProvider.System.GetUtcNow().AddDays(2900));
        Assert.Equal(AlarmKind.SensorLost, Assert.Single(Alarms()).Transition.Kind);
        Assert.True(Ever(reader => reader.Events(Long.From, Long.To)).Count(stored => stored.Kind == StoreEventKind.Clock) is 6 or 7);
        Assert.Null(Database.Damage(Store));
    }

    [SkippableTheory]
    [InlineData("Pacific/Kiritimati", 14)]
    [InlineData("America/Los_Angeles", -7)]
    public async Task The_zone_that_the_computer_stands_in_is_seen_in_the_log_alone(string zone, int ahead)
    {
        Skip.IfNot(File.Exists("/usr/share/zoneinfo/" + zone), "this machine has no table of zones");
        Configure();
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        var began = TimeProvider.System.GetUtcNow();
        using var daemon = Running.StartWith("TZ", zone, bench.Folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        var ended = TimeProvider.System.GetUtcNow();
        Assert.Equal(0, outcome.Status);

        // The log is for whoever stands there: that its hour is the zone's shows that the zone was heeded at all.
        var line = outcome.Error.Split('\n').First(line => line.Contains("samples come", StringComparison.Ordinal));
        var hour = int.Parse(line[..2], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains(Math.IEEERemainder(hour - began.Hour - ahead, 24), (double[])[-1, 0, 1]);
        Assert.All(Database.Windows(Store), window => Assert.InRange(window.Utc, began.AddSeconds(-1), ended));
        Assert.All(Database.Events(Store), stored => Assert.InRange(stored.Utc, began.AddSeconds(-1), ended));
        Assert.DoesNotContain(Database.Events(Store), stored => stored.Kind == StoreEventKind.Clock);
    }

    [SkippableTheory]
    [InlineData("[store]\npath = \"store.db\"\nretention = 90", 1, "retention")]
    [InlineData("[store]\npath = \"store.db\"\n[outputs]\nnew = true", 1, "outputs")]
    [InlineData("[store]\nfile = \"store.db\"", 2, "file")]
    public async Task A_configuration_with_a_key_that_the_new_program_does_not_know_is_said_at_once_and_nothing_is_touched(string table, int lines, string key)
    {
        Configure();
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using (var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml"))
        {
            await daemon.Until(() => Database.GoodWindows(Store, 2), "windows in the database");
            daemon.Signal(Running.Terminate);
            await daemon.End(TimeSpan.FromSeconds(15));
        }

        Configure(table);
        var before = Contents();
        var outcome = await Running.Run(bench.Folder.Path, "watch", "--config", "watch.toml");
        outcome.ShouldRefuse(2, lines);
        Assert.Contains($"'{key}'", outcome.Error.Replace('`', '\'').Replace('"', '\''), StringComparison.Ordinal);
        Assert.Contains("watch.toml", outcome.Error, StringComparison.Ordinal);
        Assert.Equal(before, Contents());
    }

    [Fact]
    public void The_unit_does_not_start_again_what_a_wrong_configuration_ended()
    {
        var unit = File.ReadAllLines(Path.Combine(Repository.Root, "systemd", "strokewatch.service"));
        Assert.Contains("RestartPreventExitStatus=2", unit);
        Assert.Contains("Restart=always", unit);
    }

    private void Configure(string table = "[store]\npath = \"store.db\"")
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[alarms]\nlost_after_s = 1\n{table}\n");
    }

    /// <summary>Gives every file of the folder but the configuration, with what it holds.</summary>
    private List<(string Name, string Bytes)> Contents() =>
        [.. Directory.GetFiles(bench.Folder.Path).Where(file => Path.GetFileName(file) is not ("watch.toml" or "tray-sensor")).Order().Select(file => (file, Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(file)))))];

    private IReadOnlyList<StoredWindow> Windows() => [.. Ever(reader => reader.Windows(Long.From, Long.To)).OrderBy(window => window.Id)];

    private IReadOnlyList<StoredAlarm> Alarms() => Ever(reader => reader.Alarms(Long.From, Long.To));

    private IReadOnlyList<T> Ever<T>(Func<StoreReader, IReadOnlyList<T>> read)
    {
        try
        {
            using var reader = new StoreReader(Store);
            return read(reader);
        }
        catch (Microsoft.Data.Sqlite.SqliteException)
        {
            return [];
        }
    }

    private static async Task Until(Func<bool> asked)
    {
        for (var i = 0; i < 600 && !asked(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(asked());
    }

    private static class Long
    {
        public static readonly DateTimeOffset From = DateTimeOffset.UnixEpoch;
        public static readonly DateTimeOffset To = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    }
}
