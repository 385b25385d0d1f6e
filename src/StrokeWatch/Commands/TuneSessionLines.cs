using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The lines <c>tune session</c>, <c>tune</c> itself, which begins a session too, and <c>tune checks</c>.</summary>
internal static class TuneSessionLines
{
    private const double Shortest = 5, Longest = 300;

    /// <summary>Adds the session to the command <c>tune</c>, under its own name and without one.</summary>
    public static void AddSession(Command tune, Surroundings surroundings)
    {
        var session = new Command("session", "Tunes a feeder step by step: cautions, conditions, measure, advice, change of leaves, until it is in its band and the record is signed.");
        Fill(session, "tune session", surroundings);
        tune.Add(session);
        Fill(tune, "tune", surroundings);
    }

    /// <summary>Builds the command <c>tune checks</c>.</summary>
    public static Command Checks(Surroundings surroundings)
    {
        var (feeder, book, captures, who) = (TuneLine.Feeder(), Book(), Captures(), Who());
        var command = new Command("checks", "Guides through checks at the machine, in a safe order, and puts the causes in order by what is found.") { feeder, book, captures, who };
        command.SetAction(parsed => TuneChecksCommand.Run(parsed.GetValue(feeder)!, parsed.GetValue(book), parsed.GetValue(captures) ?? [], parsed.GetValue(who), surroundings));
        return command;
    }

    private static void Fill(Command command, string path, Surroundings surroundings)
    {
        var feeder = new Option<string?>("--feeder") { Description = "The feeder file (TOML)." };
        var (book, captures, who) = (Book(), Captures(), Who());
        var config = new Option<string?>("--config") { Description = "The daemon's configuration: its sensor is measured live." };
        var resume = new Option<bool>("--resume") { Description = "Go on with the unfinished session, without being asked." };
        var anew = new Option<bool>("--new") { Description = "Begin anew where a session is unfinished, without being asked." };
        var seconds = Numbers.Within("--seconds", "How long a live measurement takes, in seconds; 20 where not given.", Shortest, Longest);
        foreach (var option in new Option[] { feeder, book, config, captures, who, resume, anew, seconds })
        {
            command.Add(option);
        }

        command.SetAction(parsed =>
        {
            if (parsed.GetValue(feeder) is not { } feederFile)
            {
                surroundings.Error.WriteLine(command.Subcommands.Count > 0
                    ? $"strokewatch {path}: no command is given; the commands are {string.Join(", ", command.Subcommands.Select(other => other.Name))}; see strokewatch {path} --help"
                    : $"strokewatch {path}: Option '--feeder' is required; see strokewatch {path} --help");
                return CommandLine.Bad;
            }

            return new TuneSessionCommand
            {
                FeederFile = feederFile,
                BookFile = parsed.GetValue(book),
                ConfigurationFile = parsed.GetValue(config),
                Captures = parsed.GetValue(captures) ?? [],
                Who = parsed.GetValue(who),
                Resume = parsed.GetValue(resume),
                New = parsed.GetValue(anew),
                Seconds = parsed.GetValue(seconds) ?? 20,
            }.Run(surroundings);
        });
    }

    private static Option<string?> Book() => new("--book") { Description = "The machine book; NAME.book.sqlite beside the feeder file where not given." };

    private static Option<string[]> Captures() => new("--capture") { Description = "Captures to measure in place of a live sensor, in order.", AllowMultipleArgumentsPerToken = true };

    private static Option<string?> Who() => new("--who") { Description = "Who works on it: a name or initials." };
}
