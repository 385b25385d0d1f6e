using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Page.Access;
using StrokeWatch.Session;

namespace StrokeWatch.Page.Tuning;

/// <summary>The paths of the tuning session: whoever reads may look on, technicians answer.</summary>
internal sealed class TuningActs(PageAccess access, TuningDesk desk)
{
    /// <summary>The path that tells how it stands.</summary>
    public const string Reads = "/api/v1/tuning";

    private const int MostAnswer = 200;

    /// <summary>Finds what a POST to a path does; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(string path) => path switch
    {
        Reads + "/start" => context => access.As(context, PageRight.Tune, caller => Start(context, caller)),
        Reads + "/answer" => context => access.As(context, PageRight.Tune, caller => Answer(context, caller)),
        Reads + "/leave" => context => access.As(context, PageRight.Tune, caller => Tell(context, desk.Leave(caller.User.Name))),
        _ => null,
    };

    /// <summary>Tells how it stands.</summary>
    public Task Look(HttpContext context) => Tell(context, null);

    private async Task Start(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "resume", "anew", "seconds").ConfigureAwait(false);
        var (resume, anew, seconds) = (body.Flag("resume"), body.Flag("anew"), body.Whole("seconds", 5, 300));
        if (resume && anew)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`resume` and `anew` exclude each other");
        }

        await Tell(context, Trouble(body) ?? desk.Start(caller.User.Name, resume, anew, seconds)).ConfigureAwait(false);
    }

    private async Task Answer(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "turn", "answer").ConfigureAwait(false);
        var (turn, answer) = (body.Whole("turn", 1, int.MaxValue), body.Text("answer", MostAnswer));
        if (turn is null || answer is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`turn` and `answer` were expected");
        }

        await Tell(context, Trouble(body) ?? await desk.Answer(caller.User.Name, turn!.Value, answer!).ConfigureAwait(false)).ConfigureAwait(false);
    }

    private static TuningTrouble? Trouble(PageBody body) => body.Trouble is var (status, sentence) ? new(status, sentence) : null;

    private Task Tell(HttpContext context, TuningTrouble? trouble)
    {
        if (trouble is not null)
        {
            return PageJson.Refuse(context, trouble.Status, trouble.Sentence);
        }

        try
        {
            var view = desk.Now();
            return PageJson.Answer(context, writer => Write(writer, view));
        }
        catch (BookException wrong)
        {
            return PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, wrong.Message);
        }
    }

    private static void Write(Utf8JsonWriter writer, TuningView view)
    {
        writer.WriteStartObject();
        writer.WriteBoolean("possible", view.Impossible is null);
        writer.WriteString("reason", view.Impossible);
        writer.WriteNumber("seconds", view.Seconds);
        writer.WritePropertyName("open");
        if (view.Open is { } open)
        {
            writer.WriteStartObject();
            PageJson.Utc(writer, "started_utc", open.Started);
            writer.WriteString("who", open.Who);
            writer.WriteString("step", open.Step);
            writer.WriteEndObject();
        }
        else
        {
            writer.WriteNullValue();
        }

        writer.WritePropertyName("session");
        if (view.Turn is { } turn)
        {
            writer.WriteStartObject();
            writer.WriteNumber("turn", turn.Number);
            writer.WriteString("who", turn.Who);
            writer.WritePropertyName("step");
            Write(writer, turn.Step);
            Write(writer, view.Measuring);
            Write(writer, "said", turn.Said);
            writer.WriteString("refused", turn.Refused);
            writer.WriteEndObject();
        }
        else
        {
            writer.WriteNullValue();
        }

        writer.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter writer, SessionStep step)
    {
        writer.WriteStartObject();
        writer.WriteString("id", step.Id);
        writer.WriteString("title", step.Title);
        Write(writer, "text", step.Text);
        writer.WriteStartArray("choices");
        foreach (var choice in step.Choices)
        {
            writer.WriteStartObject();
            writer.WriteString("id", choice.Id);
            writer.WriteString("words", choice.Words);
            writer.WriteBoolean("usual", choice.Enter);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteString("asks", step.Asks);
        writer.WriteString("empty_means", step.EnterMeans);
        writer.WriteString("explain", step.Explain);
        writer.WriteBoolean("urgent", step.Urgent);
        writer.WriteBoolean("can_go_back", step.CanGoBack);
        writer.WriteBoolean("can_check", step.CanCheck);
        writer.WriteBoolean("over", step.Over);
        writer.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter writer, MeasureProgress? progress)
    {
        writer.WritePropertyName("measuring");
        if (progress is null)
        {
            writer.WriteNullValue();
            return;
        }

        writer.WriteStartObject();
        PageJson.Number(writer, "left_s", progress.LeftSeconds, 1);
        PageJson.Length(writer, "pp", progress.StrokeMetres);
        writer.WriteString("verdict", progress.Verdict);
        Write(writer, "words", progress.Words);
        writer.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter writer, string name, IReadOnlyList<string> texts)
    {
        writer.WriteStartArray(name);
        foreach (var text in texts)
        {
            writer.WriteStringValue(text);
        }

        writer.WriteEndArray();
    }
}
