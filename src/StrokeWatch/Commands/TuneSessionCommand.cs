using System.Globalization;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;

namespace StrokeWatch.Commands;

/// <summary>The command <c>tune session</c>: from the first reading to the signed record, one question at a time.</summary>
internal sealed class TuneSessionCommand
{
    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the machine book, if named.</summary>
    public string? BookFile { get; init; }

    /// <summary>Gets the daemon's configuration, if given.</summary>
    public string? ConfigurationFile { get; init; }

    /// <summary>Gets the captures, in order.</summary>
    public IReadOnlyList<string> Captures { get; init; } = [];

    /// <summary>Gets who works on it, if given.</summary>
    public string? Who { get; init; }

    /// <summary>Gets whether an unfinished session is gone on with, without asking.</summary>
    public bool Resume { get; init; }

    /// <summary>Gets whether an unfinished session is given up, without asking.</summary>
    public bool New { get; init; }

    /// <summary>Gets how long a live measurement takes, in seconds.</summary>
    public double Seconds { get; init; } = 20;

    /// <summary>Runs; 0 with the stroke in its band and the record signed, 1 where it is left, 3 where nothing could be measured.</summary>
    public int Run(Surroundings surroundings)
    {
        if (TuneInput.Read("tune session", FeederFile, null, TuneNeeds.Springs | TuneNeeds.Masses, surroundings, out var status) is not { Feeder: var feeder })
        {
            return status;
        }

        if (SessionInput.Trouble(this, surroundings) || !SessionInput.Configuration(this, surroundings, out var configuration))
        {
            return CommandLine.Bad;
        }

        feeder = configuration?.Feeder ?? feeder;
        try
        {
            using var book = BookAccess.Open(BookFile ?? configuration?.BookPath, FeederFile, feeder.Name, surroundings.Time);
            using var hold = SessionHold.Terminal(book.FilePath);
            if (hold is null)
            {
                surroundings.Error.WriteLine(SessionHold.AtPage(book.FilePath));
                return CommandLine.Bad;
            }

            var answers = SessionInput.Answers(surroundings);
            var terminal = new SessionTerminal(surroundings.Output, answers, surroundings.Terminal);
            if (Begin(book, feeder, terminal, surroundings, out status) is not var (session, state))
            {
                return status;
            }

            var runner = new SessionRunner(feeder, new BookKeeper(book, session), Tools(feeder, configuration, book.FilePath, answers, surroundings), state);
            if (terminal.Run(runner))
            {
                return CommandLine.Well;
            }

            surroundings.Output.WriteLine();
            surroundings.Output.WriteLine(SessionWords.Left(FeederFile, ConfigurationFile, BookFile));
            return runner.AnyStroke == false ? CommandLine.NoStroke : CommandLine.NotWell;
        }
        catch (BookException trouble)
        {
            surroundings.Error.WriteLine(trouble.Message);
            return CommandLine.Bad;
        }
    }

    private (BookSession Session, SessionState State)? Begin(MachineBook book, FeederDescription feeder, SessionTerminal terminal, Surroundings surroundings, out int status)
    {
        status = CommandLine.Bad;
        var open = book.Sessions.Open();
        if (Resume && open is null)
        {
            surroundings.Error.WriteLine($"{book.FilePath}: there is no unfinished session to resume; leave out --resume to begin one");
            return null;
        }

        var goesOn = open is not null && !New;
        if (open is not null && !New && !Resume)
        {
            if (terminal.Ask(Unfinished(open)) is not { } answer)
            {
                status = CommandLine.NotWell;
                return null;
            }

            goesOn = answer == GoOn;
        }

        if (!goesOn)
        {
            return SessionOpening.Begin(book, feeder, Who, surroundings.Time.GetUtcNow());
        }

        if (SessionOpening.Resume(open!, Who) is not { } state)
        {
            surroundings.Error.WriteLine($"{book.FilePath}: the unfinished session stands at a step that this program does not know ({open!.Step}); use the newer program, or begin anew with --new");
            return null;
        }

        return (open!, state);
    }

    private const string GoOn = "go-on", Anew = "anew";

    private static SessionStep Unfinished(BookSession open) => new()
    {
        Id = "resume",
        Title = "Unfinished session",
        Text = [string.Create(CultureInfo.InvariantCulture, $"A session begun on {open.Started.UtcDateTime:yyyy-MM-dd HH:mm} UTC{(open.Who is { } who ? $" by {who}" : "")} is not at its end; it stands at \"{open.Step}\".")],
        Choices = [new(GoOn, "go on with it, at that very step", true), new(Anew, "begin anew; what was measured stays in the book")],
        Explain = "An unfinished session keeps its readings and its advice. Begin anew where the machine has been changed since.",
        CanGoBack = false,
        CanCheck = false,
    };

    private SessionTools Tools(FeederDescription feeder, WatchConfiguration? configuration, string bookFile, IAnswers answers, Surroundings surroundings) => new()
    {
        Time = surroundings.Time,
        Captures = Captures,
        Name = file => Path.GetRelativePath(Path.GetDirectoryName(Path.GetFullPath(bookFile))!, Path.GetFullPath(file)),
        Live = configuration is not null,
        Seconds = Seconds,
        Measure = wish => wish.Capture is { } file ? TrialMeter.Capture(file, feeder) : new LiveMeter
        {
            Configuration = configuration!,
            Seconds = Seconds,
            CapturePrefix = Path.ChangeExtension(FeederFile, null),
            Output = surroundings.Output,
            Terminal = surroundings.Terminal,
            Time = surroundings.Time,
            Pressed = answers.Pressed,
        }.Measure(surroundings.Stop),
        Learn = trial => SessionBaseline.Learn(configuration?.History.BaselinePath ?? BaselineFile.Beside(FeederFile), feeder, trial, surroundings.Time.GetUtcNow()),
    };
}
