using System.Text.Json;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Reports.Books;

/// <summary>Writes a machine book as one JSON document.</summary>
internal static class BookJson
{
    private const double Hour = 3600;

    /// <summary>Writes it.</summary>
    public static void Write(Stream stream, string feeder, BookSummary book)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(json, feeder, book);
        }

        stream.WriteByte((byte)'\n');
    }

    /// <summary>Writes it as a value.</summary>
    public static void Write(Utf8JsonWriter json, string feeder, BookSummary book)
    {
        json.WriteStartObject();
        json.WriteString("feeder", feeder);
        json.WriteString("book", book.File);
        Running(json, book.Counters);
        json.WriteStartArray("leaf_sets");
        foreach (var (entry, seconds, cycles) in book.LeafSets)
        {
            json.WriteStartObject();
            Entry(json, entry);
            ReplayJson.Number(json, "has_run_h", seconds / Hour, 4);
            ReplayJson.Number(json, "has_run_cycles", cycles, 0);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("entries");
        foreach (var entry in book.Entries)
        {
            json.WriteStartObject();
            Entry(json, entry);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Reminders(json, book.Reminders);
        json.WriteNumber("tuning_sessions", book.Sessions);
        json.WriteEndObject();
    }

    private static void Running(Utf8JsonWriter json, BookCounters? counters)
    {
        json.WriteStartObject("running");
        ReplayJson.Number(json, "running_h", counters?.Hours, 4);
        ReplayJson.Number(json, "cycles", counters?.Cycles, 0);
        ReplayJson.Number(json, "starts", counters?.Starts, 0);
        ReplayJson.Number(json, "outside_band_h", counters?.HoursOutside, 4);
        json.WriteString("since", counters is null ? null : RecordedDate.Text(counters.Since));
        json.WriteString("updated", counters is null ? null : RecordedDate.Text(counters.Updated));
        json.WriteString("reason", counters is null ? "nothing was counted yet" : null);
        json.WriteEndObject();
    }

    private static void Entry(Utf8JsonWriter json, BookEntry entry)
    {
        json.WriteString("kind", BookNames.Of(entry.Kind));
        json.WriteString("date", RecordedDate.Text(entry.Utc));
        json.WriteString("who", entry.Who);
        json.WriteString("rear", entry.Rear);
        json.WriteString("front", entry.Front);
        ReplayJson.Number(json, "gap_mm", entry.GapMetres * 1e3, 4);
        ReplayJson.Number(json, "torque_n_m", entry.TorqueNewtonMetres, 3);
        json.WriteString("text", entry.Text);
        json.WriteString("words", BookWords.Of(entry));
        ReplayJson.Number(json, "at_h", entry.AtSeconds / Hour, 4);
        ReplayJson.Number(json, "at_cycles", entry.AtCycles, 0);
    }

    private static void Reminders(Utf8JsonWriter json, IReadOnlyList<ReminderState> reminders)
    {
        json.WriteStartArray("reminders");
        foreach (var state in reminders)
        {
            json.WriteStartObject();
            json.WriteString("kind", BookNames.Of(state.Reminder.Kind));
            json.WriteString("state", state.Level.ToString().ToLowerInvariant());
            ReplayJson.Number(json, "every_h", state.Reminder.EverySeconds / Hour, 4);
            ReplayJson.Number(json, "every_cycles", state.Reminder.EveryCycles, 0);
            ReplayJson.Number(json, "left_h", state.SecondsLeft / Hour, 4);
            ReplayJson.Number(json, "left_cycles", state.CyclesLeft, 0);
            json.WriteString("last", RecordedDate.Text(state.Reminder.LastUtc));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
