using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page;

/// <summary>Answers from the store: the trend, thinned to smallest and largest, and the journal of alarms.</summary>
internal sealed class HistoryAnswers(string path, string feeder, TimeProvider time) : IDisposable
{
    private const int AtOnce = 2;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan GatherPatience = TimeSpan.FromSeconds(3);

    /// <summary>However many ask, the processor and the disk belong to the measurement.</summary>
    private readonly SemaphoreSlim turns = new(AtOnce);

    private readonly StrokeHistory strokes = new(path, feeder, time);

    /// <summary>Answers with the smallest and largest stroke of each part of a span.</summary>
    public async Task Trend(HttpContext context)
    {
        var query = PageQuery.Of(context, "from", "to", "points");
        var (from, to) = query.Span(time.GetUtcNow(), TimeSpan.FromHours(1));
        var points = query.Whole("points", 1, 2000, 240);
        var width = StoreReader.ColumnMilliseconds(from, to, points);
        var far = query.Trouble is null && width > StrokeHistory.PartMilliseconds;
        var gathered = far ? await strokes.Gather(from, GatherPatience).ConfigureAwait(false) : null;
        await Read(
            context, query,
            reader => far ? strokes.Columns(reader, from, to, points) : (from.ToUnixTimeMilliseconds(), width, reader.StrokeColumns(feeder, from, to, points)),
            (writer, read) =>
            {
                writer.WriteString("feeder", feeder);
                PageJson.Utc(writer, "from_utc", DateTimeOffset.FromUnixTimeMilliseconds(read.Item1));
                PageJson.Utc(writer, "to_utc", to);
                PageJson.Utc(writer, "gathered_from_utc", gathered);
                writer.WriteNumber("column_s", read.Item2 / 1e3);
                writer.WriteStartArray("columns");
                foreach (var column in read.Item3)
                {
                    Column(writer, column, read.Item2);
                }

                writer.WriteEndArray();
            }).ConfigureAwait(false);
    }

    /// <summary>Answers with the steps of alarms' lives in a span, in order.</summary>
    public Task Alarms(HttpContext context)
    {
        var query = PageQuery.Of(context, "from", "to", "most");
        var (from, to) = query.Span(time.GetUtcNow(), TimeSpan.FromDays(1));
        var most = query.Whole("most", 1, 5000, 500);
        return Read(context, query, reader => reader.Journal(from, to, most + 1), (writer, steps) =>
        {
            writer.WriteString("feeder", feeder);
            PageJson.Utc(writer, "from_utc", from);
            PageJson.Utc(writer, "to_utc", to);
            writer.WriteBoolean("more", steps.Count > most);
            writer.WriteStartArray("steps");
            foreach (var stored in steps.Take(most).Where(stored => stored.Feeder == feeder))
            {
                Step(writer, stored);
            }

            writer.WriteEndArray();
        });
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        strokes.Dispose();
        turns.Dispose();
    }

    private static void Column(Utf8JsonWriter writer, StoredColumn column, long width)
    {
        writer.WriteStartObject();
        writer.WriteNumber("start_s", column.Index * width / 1e3);
        PageJson.Number(writer, "least_mm", column.LeastMetres * 1e3, 6);
        PageJson.Number(writer, "most_mm", column.MostMetres * 1e3, 6);
        writer.WriteNumber("windows", column.Windows);
        writer.WriteEndObject();
    }

    private static void Step(Utf8JsonWriter writer, StoredStep stored)
    {
        var step = stored.Step;
        writer.WriteStartObject();
        writer.WriteNumber("number", stored.Id);
        PageJson.Utc(writer, "utc", step.At);
        writer.WriteString("alarm", step.Id.ToString());
        writer.WriteString("act", Names.Of(step.Act));
        writer.WriteString("from", Names.Of(step.From));
        writer.WriteString("to", Names.Of(step.To));
        writer.WriteString("by", step.By);
        PageJson.Utc(writer, "until_utc", step.Until);
        writer.WriteString("words", step.Words);
        writer.WriteEndObject();
    }

    private async Task Read<T>(HttpContext context, PageQuery query, Func<StoreReader, T> read, Action<Utf8JsonWriter, T> write)
    {
        if (query.Trouble is { } trouble)
        {
            await PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble).ConfigureAwait(false);
            return;
        }

        if (!await turns.WaitAsync(Patience, context.RequestAborted).ConfigureAwait(false))
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "too many ask for the history at once; ask again later").ConfigureAwait(false);
            return;
        }

        ReadOnlyMemory<byte> answer;
        try
        {
            using var reader = new StoreReader(path);
            var found = read(reader);
            answer = PageJson.Bytes(writer =>
            {
                writer.WriteStartObject();
                write(writer, found);
                writer.WriteEndObject();
            });
        }
        catch (SqliteException broken)
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, $"the store cannot be read: {broken.Message.ReplaceLineEndings(" ")}").ConfigureAwait(false);
            return;
        }
        finally
        {
            turns.Release();
        }

        await PageJson.Answer(context, answer, "application/json; charset=utf-8").ConfigureAwait(false);
    }
}
