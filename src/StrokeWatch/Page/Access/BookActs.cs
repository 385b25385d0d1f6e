using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Session;

namespace StrokeWatch.Page.Access;

/// <summary>Entries of the machine book by the API: technicians write notes, engineers set what was done to the machine; each with the name of who is signed in.</summary>
internal sealed class BookActs(PageAccess access, TuningSettings settings, TimeProvider time)
{
    private const string Notes = "/api/v1/book/note", Sets = "/api/v1/book/set", Reminds = "/api/v1/book/remind";
    private const int MostText = 1000, MostValue = 100;
    private const double WidestGapMetres = 0.1;
    private const int MostTorque = 5000;
    private const int MostHours = 100_000, MostMillions = 1_000_000;

    private static readonly BookNaming Keys = new(
        part => part == "torque" ? "`torque_nm`" : $"`{part}`",
        kind => $"the kind {BookNames.Of(kind)}",
        kind => kind switch
        {
            BookEntryKind.LeafSet => "`rear` is missing for the kind leaf-set",
            BookEntryKind.AirGap => "`gap` is missing for the kind air-gap",
            BookEntryKind.BoltTorque => "`torque_nm` is missing for the kind bolt-torque",
            _ => "a `text` was expected",
        });

    /// <summary>Finds what a POST to a path does; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(string path) => path switch
    {
        Notes => context => access.As(context, PageRight.Note, caller => Note(context, caller)),
        Sets => context => access.As(context, PageRight.SetBook, caller => Set(context, caller)),
        Reminds => context => access.As(context, PageRight.SetBook, _ => Remind(context)),
        _ => null,
    };

    private async Task Note(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "text").ConfigureAwait(false);
        await Keep(context, body, new() { Kind = BookEntryKind.Note, Who = caller.User.Name, Text = body.Text("text", MostText) }).ConfigureAwait(false);
    }

    private async Task Set(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "kind", "text", "rear", "front", "gap", "torque_nm").ConfigureAwait(false);
        var (kind, rear, front, torque, text) = (Kind(body), body.Text("rear", MostValue), body.Text("front", MostValue), body.Whole("torque_nm", 1, MostTorque), body.Text("text", MostText));
        var gap = body.Text("gap", MostValue);
        Length? width = gap is not null && Length.TryParse(gap, out var read) && read.Metres is > 0 and <= WidestGapMetres ? read : null;
        if (gap is not null && width is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`gap`: a length with its unit such as \"2.2 mm\", of 100 mm at most, was expected");
        }

        await Keep(context, body, new() { Kind = kind, Who = caller.User.Name, Rear = rear, Front = front, Gap = width, Torque = torque, Text = text }).ConfigureAwait(false);
    }

    private async Task Remind(HttpContext context)
    {
        var body = await PageBody.Read(context, "kind", "every_h", "every_million_cycles", "off").ConfigureAwait(false);
        var (kind, hours, cycles, off) = (Kind(body), body.Whole("every_h", 1, MostHours), body.Whole("every_million_cycles", 1, MostMillions), body.Flag("off"));
        if (off == (hours is not null || cycles is not null))
        {
            body.Refuse(StatusCodes.Status400BadRequest, off ? "`off` stands beside an interval; give one or the other" : "the interval is missing; give `every_h`, `every_million_cycles` or `off`");
        }

        await With(context, body, book =>
        {
            book.Reminders.Set(kind, hours * 3600.0, cycles * 1e6, time.GetUtcNow());
            return writer =>
            {
                writer.WriteStartObject();
                writer.WriteString("kind", BookNames.Of(kind));
                writer.WriteBoolean("set", !off);
                writer.WriteEndObject();
            };
        }).ConfigureAwait(false);
    }

    private static BookEntryKind Kind(PageBody body)
    {
        var word = body.Text("kind", MostValue);
        if (word is not null && BookNames.Kind(word) is { } kind and not BookEntryKind.Note)
        {
            return kind;
        }

        body.Refuse(StatusCodes.Status400BadRequest, $"`kind`: {string.Join(" or ", BookNames.EntryKinds.Where(name => name != BookNames.Of(BookEntryKind.Note)))} was expected");
        return BookEntryKind.Note;
    }

    private Task Keep(HttpContext context, PageBody body, BookDraft draft)
    {
        BookEntry? entry = null;
        if (body.Trouble is null && (entry = draft.Entry(settings.Feeder, time.GetUtcNow(), Keys, out var trouble)) is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, trouble!);
        }

        return With(context, body, book =>
        {
            var kept = book.Entries.Add(entry!);
            return writer =>
            {
                writer.WriteStartObject();
                PageJson.Utc(writer, "utc", kept.Utc);
                writer.WriteString("kind", BookNames.Of(kept.Kind));
                writer.WriteString("who", kept.Who);
                writer.WriteString("text", kept.Text);
                writer.WriteEndObject();
            };
        });
    }

    private Task With(HttpContext context, PageBody body, Func<MachineBook, Action<Utf8JsonWriter>> work)
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
            return PageJson.Answer(context, work(book));
        }
        catch (BookException trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, trouble.Message);
        }
    }
}
