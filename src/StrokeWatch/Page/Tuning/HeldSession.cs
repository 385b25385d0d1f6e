using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;
using StrokeWatch.Session.Steps;

namespace StrokeWatch.Page.Tuning;

/// <summary>A session that is held on the page: the book, the hold that keeps terminals off, and what runs the steps.</summary>
internal sealed class HeldSession : IDisposable
{
    private const string Signs = "sign";

    private readonly MachineBook book;
    private readonly SessionHold hold;
    private readonly SessionRunner runner;

    private HeldSession(MachineBook book, SessionHold hold, SessionRunner runner, string who)
    {
        (this.book, this.hold, this.runner) = (book, hold, runner);
        Turn = new(1, who, Shown(who), [], null);
    }

    /// <summary>Gets the question that stands.</summary>
    public TuningTurn Turn { get; private set; }

    /// <summary>Gets whether nothing more can be answered here.</summary>
    public bool Ended { get; private set; }

    /// <summary>Begins a session or goes on with the open one.</summary>
    /// <exception cref="BookException">The book cannot be opened or written.</exception>
    public static HeldSession? Open(TuningSettings settings, string who, bool resume, bool anew, SessionTools tools, out TuningTrouble? trouble)
    {
        var path = settings.Book!;
        var book = MachineBook.Open(path, tools.Time);
        SessionHold? hold = null;
        try
        {
            book.Claim(settings.Feeder.Name, settings.BookRenames);
            hold = SessionHold.Page(path);
            trouble = hold is null ? new(409, "a terminal holds the tuning session; leave it there first (q)") : null;
            var open = book.Sessions.Open();
            (BookSession Session, SessionState State)? begun = null;
            if (trouble is null && (open is null || anew))
            {
                begun = SessionOpening.Begin(book, settings.Feeder, who, tools.Time.GetUtcNow());
            }
            else if (trouble is null && !resume)
            {
                trouble = new(409, $"a session{(open!.Who is { } other ? $" of {other}" : "")} is not at its end; go on with it (`resume`), or begin anew (`anew`)");
            }
            else if (trouble is null)
            {
                begun = SessionOpening.Resume(open!, who) is { } state ? (open!, state) : null;
                trouble = begun is null ? new(409, "the unfinished session stands at a step that this program does not know; use the newer program, or begin anew") : null;
            }

            if (begun is var (session, at))
            {
                return new(book, hold!, new(settings.Feeder, new BookKeeper(book, session), tools, at), who);
            }
        }
        catch
        {
            hold?.Dispose();
            book.Dispose();
            throw;
        }

        hold?.Dispose();
        book.Dispose();
        return null;
    }

    /// <summary>Takes an answer; whatever comes of it is in the book when this returns. What is measured is waited for.</summary>
    public void Answer(string answer)
    {
        // Who is signed in signs: nobody types another's name.
        var turn = Turn.Step.Id == SessionSteps.Sign && answer is not ("b" or "c" or "q") ? runner.Answer("") : runner.Answer(answer);
        Ended = turn.Leaves || turn.Done;
        Turn = new(Turn.Number + 1, Turn.Who, Shown(Turn.Who), turn.Said, turn.Refused);
    }

    /// <summary>Says why an answer could not be kept; the question stands.</summary>
    public void Refuse(string why) => Turn = Turn with { Number = Turn.Number + 1, Said = [], Refused = why };

    /// <inheritdoc/>
    public void Dispose()
    {
        hold.Dispose();
        book.Dispose();
    }

    private SessionStep Shown(string? who)
    {
        var step = runner.Current;
        return step.Id != SessionSteps.Sign ? step : step with { Asks = null, EnterMeans = null, Choices = [new(Signs, $"sign as {who}", Enter: true)] };
    }
}
