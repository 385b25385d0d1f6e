using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>What a database holds, read while the daemon writes it; nothing where it cannot be read yet.</summary>
internal static class Database
{
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static IReadOnlyList<StoredWindow> Windows(string path) => Read(path, reader => reader.Windows(DateTimeOffset.UnixEpoch, Future));

    public static IReadOnlyList<StoredAlarm> Alarms(string path) => Read(path, reader => reader.Alarms(DateTimeOffset.UnixEpoch, Future));

    public static IReadOnlyList<StoredEvent> Events(string path) => Read(path, reader => reader.Events(DateTimeOffset.UnixEpoch, Future));

    public static IReadOnlyList<StoredStretch> Stretches(string path, string feeder) => Read(path, reader => reader.NewestStretches(feeder, 100));

    public static IReadOnlyList<AlarmStep> Journal(string path) => [.. Read(path, reader => reader.Journal(DateTimeOffset.UnixEpoch, Future)).Select(stored => stored.Step)];

    /// <summary>Gives the good windows once there are so many; null before.</summary>
    public static IReadOnlyList<StoredWindow>? GoodWindows(string path, int least, long afterId = 0)
    {
        var good = Windows(path).Where(window => window.Id > afterId && window.Reading is { Quality: WindowQuality.Good, StrokeMetres: not null }).ToList();
        return good.Count >= least ? good : null;
    }

    /// <summary>Gives an alarm raised or cleared; null before.</summary>
    public static StoredAlarm? Alarm(string path, AlarmKind kind, bool raised) =>
        Alarms(path).FirstOrDefault(alarm => alarm.Transition.Kind == kind && alarm.Transition.Raised == raised);

    /// <summary>Gives what is wrong with the file; null where nothing is.</summary>
    public static string? Damage(string path)
    {
        using var reader = new StoreReader(path);
        return reader.IntegrityCheck();
    }

    private static IReadOnlyList<T> Read<T>(string path, Func<StoreReader, IReadOnlyList<T>> read)
    {
        if (!File.Exists(path))
        {
            return [];
        }

        try
        {
            using var reader = new StoreReader(path);
            return read(reader);
        }
        catch (SqliteException)
        {
            // The tables are not there yet, or the file is being made.
            return [];
        }
    }
}
