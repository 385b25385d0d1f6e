using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>A folder with a store in it for one test, and a clock that stands still until it is moved.</summary>
internal sealed class StoreFolder : IDisposable
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);

    public FakeTimeProvider Clock { get; } = new(Noon);

    public string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-store-").FullName;

    public string Database => Path.Combine(Folder, "store.db");

    public StoreOptions Options => new() { Path = Database, Feeder = "Sand feeder", BallastBytes = 0, LockSeconds = 1 };

    public static WindowReading Reading(double start, double? strokeMetres = 1.6e-3) => new()
    {
        StartSeconds = start,
        LengthSeconds = 1,
        Quality = WindowQuality.Good,
        Motion = MotionState.Running,
        StrokeMetres = strokeMetres,
    };

    public static AlarmTransition Alarm(double at) => new(AlarmKind.OverStroke, Raised: true, at, 1.95e-3, "Over-stroke: stop the feeder.");

    /// <summary>Answers a promise, or fails after a patient while: nothing may hang.</summary>
    public static async Task<T> Soon<T>(Task<T> promise) => await promise.WaitAsync(TimeSpan.FromSeconds(30));

    /// <summary>Waits until a store's health is as asked; the clock is moved on meanwhile.</summary>
    public async Task Until(SqliteStore store, Func<StoreHealth, bool> asked)
    {
        for (var i = 0; i < 600 && !asked(store.Health); i++)
        {
            Clock.Advance(TimeSpan.FromSeconds(1));
            await Task.Delay(20);
        }

        Xunit.Assert.True(asked(store.Health), store.Health.ToString());
    }

    /// <summary>Does something to the file that the store itself would not do.</summary>
    public void Sql(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
