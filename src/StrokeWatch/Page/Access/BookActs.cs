using Microsoft.AspNetCore.Http;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Page.Access;

/// <summary>Entries of the machine book by the API: technicians write notes, engineers set what was done to the machine; each with the name of who is signed in.</summary>
internal sealed class BookActs(PageAccess access, TuningSettings settings, TimeProvider time)
{
    private const string Notes = "/api/v1/book/note", Sets = "/api/v1/book/set";
    private const int MostText = 1000, MostValue = 100;
    private const double WidestGapMetres = 0.1;
    private const int MostTorque = 5000;

    /// <summary>Finds what a POST to a path does; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(string path) => path switch
    {
        Notes => context => access.As(context, PageRight.Note, caller => Note(context, caller)),
        Sets => context => access.As(context, PageRight.SetBook, caller => Set(context, caller)),
        _ => null,
    };

    private async Task Note(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "text").ConfigureAwait(false);
        var text = Text(body);
        if (text is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "a `text` was expected");
        }

        await Keep(context, body, new() { Utc = time.GetUtcNow(), Kind = BookEntryKind.Note, Who = caller.User.Name, Text = text }).ConfigureAwait(false);
    }

    private async Task Set(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "kind", "text", "rear", "gap", "torque_nm").ConfigureAwait(false);
        var (word, rear, gap, torque) = (body.Text("kind", MostValue), body.Text("rear", MostValue), body.Text("gap", MostValue), body.Whole("torque_nm", 1, MostTorque));
        var kind = word is null ? null : BookNames.Kind(word);
        if (kind is null or BookEntryKind.Note)
        {
            body.Refuse(StatusCodes.Status400BadRequest, $"`kind`: {string.Join(" or ", BookNames.EntryKinds.Where(name => name != BookNames.Of(BookEntryKind.Note)))} was expected");
        }

        foreach (var (key, given, of) in ((string, bool, BookEntryKind)[])
            [("rear", rear is not null, BookEntryKind.LeafSet), ("gap", gap is not null, BookEntryKind.AirGap), ("torque_nm", torque is not null, BookEntryKind.BoltTorque)])
        {
            if (given != (kind == of))
            {
                body.Refuse(StatusCodes.Status400BadRequest, given ? $"`{key}` belongs to the kind {BookNames.Of(of)}" : $"`{key}` is missing for the kind {BookNames.Of(of)}");
            }
        }

        var stack = rear is null ? null : RearStep.Read(rear, settings.Feeder, out _);
        if (rear is not null && stack is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, $"`rear`: {RearStep.Trouble(rear, settings.Feeder)}");
        }

        Length? width = gap is not null && Length.TryParse(gap, out var read) && read.Metres is > 0 and <= WidestGapMetres ? read : null;
        if (gap is not null && width is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`gap`: a length with its unit such as \"2.2 mm\", of 100 mm at most, was expected");
        }

        await Keep(context, body, new()
        {
            Utc = time.GetUtcNow(),
            Kind = kind ?? BookEntryKind.Note,
            Who = caller.User.Name,
            Rear = stack is null ? null : StackText.Write(stack),
            GapMetres = width?.Metres,
            TorqueNewtonMetres = torque,
            Text = Text(body),
        }).ConfigureAwait(false);
    }

    private static string? Text(PageBody body) => body.Text("text", MostText)?.Trim() is { Length: > 0 } text ? text : null;

    private Task Keep(HttpContext context, PageBody body, BookEntry entry)
    {
        if (body.Trouble is var (status, sentence))
        {
            return PageJson.Refuse(context, status, sentence);
        }

        if (settings.Book is not { } path)
        {
            return PageJson.Refuse(context, StatusCodes.Status409Conflict, "no machine book is kept");
        }

        try
        {
            using var book = MachineBook.Open(path, time);
            book.Claim(settings.Feeder.Name, settings.BookRenames);
            var kept = book.Entries.Add(entry);
            return PageJson.Answer(context, writer =>
            {
                writer.WriteStartObject();
                PageJson.Utc(writer, "utc", kept.Utc);
                writer.WriteString("kind", BookNames.Of(kept.Kind));
                writer.WriteString("who", kept.Who);
                writer.WriteString("text", kept.Text);
                writer.WriteEndObject();
            });
        }
        catch (BookException trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, trouble.Message);
        }
    }
}
