using Microsoft.AspNetCore.Http;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Reports.Books;

namespace StrokeWatch.Page.Books;

/// <summary>Answers with what stands in the machine book, as <c>book show --json</c> writes it.</summary>
/// <param name="settings">Which book.</param>
internal sealed class BookAnswers(TuningSettings settings)
{
    private const string NoBook = "no machine book is kept", Empty = "nothing is in the machine book yet";

    /// <summary>However many ask, the disk belongs to the measurement.</summary>
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>Answers.</summary>
    public async Task Answer(HttpContext context)
    {
        if (PageQuery.Of(context).Trouble is { } trouble)
        {
            await PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble).ConfigureAwait(false);
            return;
        }

        await turn.WaitAsync(context.RequestAborted).ConfigureAwait(false);
        BookSummary? summary;
        try
        {
            summary = Read();
        }
        catch (BookException wrong)
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, wrong.Message.Replace(settings.Book!, Path.GetFileName(settings.Book!), StringComparison.Ordinal)).ConfigureAwait(false);
            return;
        }
        finally
        {
            turn.Release();
        }

        await PageJson.Answer(context, writer =>
        {
            writer.WriteStartObject();
            writer.WriteBoolean("kept", settings.Book is not null);
            writer.WriteString("reason", settings.Book is null ? NoBook : summary is null ? Empty : null);
            writer.WritePropertyName("book");
            if (summary is null)
            {
                writer.WriteNullValue();
            }
            else
            {
                BookJson.Write(writer, settings.Feeder.Name, summary with { File = Path.GetFileName(summary.File) });
            }

            writer.WriteEndObject();
        }).ConfigureAwait(false);
    }

    private BookSummary? Read()
    {
        if (settings.Book is not { } path || !File.Exists(path))
        {
            return null;
        }

        using var book = MachineBook.OpenReader(path);
        return BookSummary.Read(book);
    }
}
