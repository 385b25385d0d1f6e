using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page.Health;

/// <summary>Answers with how the station is: devices, outputs, store, and what the alarms of the last seven days asked of people.</summary>
/// <param name="sight">What is looked at.</param>
/// <param name="taps">The devices' samples.</param>
/// <param name="board">The newest reading.</param>
/// <param name="feed">Those who follow.</param>
/// <param name="time">The clock.</param>
internal sealed class HealthAnswers(PageSight sight, Waves.WaveTaps taps, LiveBoard board, LiveFeed feed, TimeProvider time)
{
    /// <summary>How far alarms are looked back at, in days.</summary>
    private const int Days = 7;

    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(30);

    private readonly Lock gate = new();
    private (long At, AlarmLoad? Load)? figures;

    /// <summary>Gets how the station is.</summary>
    public StationHealth Now => StationHealth.Of(sight, taps);

    /// <summary>Answers.</summary>
    public Task Answer(HttpContext context)
    {
        if (PageQuery.Of(context).Trouble is { } trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble);
        }

        var load = Figures();
        return PageJson.Answer(context, writer =>
        {
            writer.WriteStartObject();
            PageJson.Utc(writer, "utc", time.GetUtcNow());
            HealthJson.Station(writer, Now, board.Now);
            Load(writer, load);
            writer.WriteStartObject("page");
            writer.WriteNumber("followers", feed.Followers);
            writer.WriteNumber("dropped_events", feed.Dropped);
            writer.WriteEndObject();
            writer.WriteEndObject();
        });
    }

    private void Load(Utf8JsonWriter writer, AlarmLoad? load)
    {
        writer.WriteStartObject("alarms");
        writer.WriteNumber("unwritten_steps", sight.Lives.Unwritten);
        writer.WriteString("reason", load is null ? "the journal of alarms cannot be read" : null);
        HealthJson.Load(writer, load);
        writer.WriteEndObject();
    }

    /// <summary>Works the figures out, or gives those of a while ago: however many ask, the journal is read once a while.</summary>
    private AlarmLoad? Figures()
    {
        lock (gate)
        {
            if (figures is { } known && time.GetElapsedTime(known.At) < Fresh)
            {
                return known.Load;
            }

            var load = Read();
            figures = (time.GetTimestamp(), load);
            return load;
        }
    }

    private AlarmLoad? Read()
    {
        var to = time.GetUtcNow();
        try
        {
            using var reader = new StoreReader(sight.StorePath);
            var (feeder, from) = (sight.Feeder.Name, to.AddDays(-Days));
            var steps = reader.LoadSteps(feeder, from, to);
            return AlarmFigures.Of(steps, from, to, sight.Table, steps.Count == 0 ? [] : reader.Starts(feeder, steps[0].At < from ? steps[0].At : from, to));
        }
        catch (SqliteException)
        {
            return null;
        }
    }
}
