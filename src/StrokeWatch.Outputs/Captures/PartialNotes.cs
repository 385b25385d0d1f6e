using System.Globalization;
using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Captures;

/// <summary>What a capture that is still being written cannot hold itself: its alarms and its gaps, a line each, so that it can be finished after a kill.</summary>
internal sealed class PartialNotes : IDisposable
{
    private readonly SyncedFile file;
    private readonly StreamWriter writer;

    /// <summary>Begins the notes of a capture.</summary>
    public PartialNotes(string path)
    {
        file = new(path);
        writer = new(file) { NewLine = "\n", AutoFlush = true };
    }

    /// <summary>Gives the notes' path for a capture that is being written.</summary>
    public static string Beside(string partial) => partial + ".notes";

    /// <summary>Notes an alarm.</summary>
    public void Alarm(AlarmId id, DateTimeOffset at) => writer.WriteLine($"alarm {id} {at.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture)}");

    /// <summary>Notes samples missing before a sample of the file, counted from 0.</summary>
    public void Gap(long index, long missing) => writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"gap {index} {missing}"));

    /// <summary>Reads notes back; a last line that was cut off is left out.</summary>
    public static (List<(AlarmId Id, DateTimeOffset At)> Alarms, Dictionary<long, long> Gaps) Read(string path)
    {
        var (alarms, gaps) = (new List<(AlarmId, DateTimeOffset)>(), new Dictionary<long, long>());
        var text = File.Exists(path) ? File.ReadAllText(path) : "";
        foreach (var line in text[..(text.LastIndexOf('\n') + 1)].Split('\n'))
        {
            var words = line.Split(' ');
            if (words is ["alarm", var name, var instant] && AlarmId.TryParse(name, out var id) && Whole(instant) is { } ms)
            {
                alarms.Add((id, DateTimeOffset.FromUnixTimeMilliseconds(ms)));
            }
            else if (words is ["gap", var at, var many] && Whole(at) is { } index && Whole(many) is { } missing)
            {
                gaps[index] = missing;
            }
        }

        return (alarms, gaps);
    }

    /// <summary>Waits until all is on the disk.</summary>
    public void Sync() => file.Flush(flushToDisk: true);

    /// <inheritdoc/>
    public void Dispose() => writer.Dispose();

    private static long? Whole(string text) => long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number < 1L << 52 ? number : null;
}
