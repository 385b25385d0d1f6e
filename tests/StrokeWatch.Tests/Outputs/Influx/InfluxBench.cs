using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Tests.Outputs.Forwarding;

namespace StrokeWatch.Tests.Outputs.Influx;

/// <summary>A store, a forwarder and a clock that a test moves; the server is the test's.</summary>
internal sealed class InfluxBench : IDisposable
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);

    private InfluxForwarder? forwarder;

    public InfluxBench() => Store = new(Database);

    public FakeTimeProvider Clock { get; } = new(Noon);

    public string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-influx-").FullName;

    public string Database => Path.Combine(Folder, "store.db");

    public FilledStore Store { get; private set; }

    public List<(bool Trouble, string Words)> Told { get; } = [];

    /// <summary>Gets or sets what full voltage would make of a window's stroke.</summary>
    public Func<WindowReading, double?>? FullStroke { get; set; }

    public ForwardingHealth Health => forwarder!.Health;

    /// <summary>Makes the forwarder, or another in place of the one before, as after a restart.</summary>
    public InfluxForwarder Forward(Uri url, Func<InfluxOptions, InfluxOptions>? change = null)
    {
        forwarder?.Dispose();
        var options = new InfluxOptions { Url = url, Org = "glass", Bucket = "feeders", BatchRows = 100 };
        options = change is null ? options : change(options);
        forwarder = new(options, Database, "Sand feeder", Clock, (trouble, words) => Told.Add((trouble, words)), new InfluxWriter(options, Clock), FullStroke);
        return forwarder;
    }

    public string Token(string text, UnixFileMode mode = UnixFileMode.UserRead | UnixFileMode.UserWrite)
    {
        var path = Path.Combine(Folder, "token");
        File.WriteAllText(path, text);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, mode);
        }

        return path;
    }

    /// <summary>Steps until nothing is left to do at once; gives the wait that is then asked for.</summary>
    public async Task<TimeSpan> Settle()
    {
        for (var i = 0; i < 500; i++)
        {
            if (await forwarder!.Step(CancellationToken.None) is var wait && wait > TimeSpan.Zero)
            {
                return wait;
            }
        }

        throw new InvalidOperationException($"500 steps and no end: {Health}");
    }

    /// <summary>Moves the clock past a wait and settles again.</summary>
    public async Task<TimeSpan> After(TimeSpan wait)
    {
        Clock.Advance(wait + TimeSpan.FromMilliseconds(1));
        return await Settle();
    }

    /// <summary>Begins the store anew, as after a broken file was moved aside.</summary>
    public void NewStore()
    {
        Store.Dispose();
        foreach (var suffix in new[] { "", "-wal", "-shm" })
        {
            File.Delete(Database + suffix);
        }

        Store = new(Database);
    }

    /// <summary>Reads what was set aside.</summary>
    public List<(string Table, long Row, string Reason, string Text)> SetAside()
    {
        using var connection = new SqliteConnection($"Data Source={ForwardingFile.Beside(Database, "influx")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT source, row_id, reason, text FROM refused ORDER BY id";
        using var rows = command.ExecuteReader();
        var found = new List<(string, long, string, string)>();
        while (rows.Read())
        {
            found.Add((rows.GetString(0), rows.GetInt64(1), rows.GetString(2), rows.GetString(3)));
        }

        return found;
    }

    public static List<long> Whole(int count) => [.. Enumerable.Range(1, count).Select(i => (long)i)];

    public void Dispose()
    {
        forwarder?.Dispose();
        Store.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
