using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>tune</c>: the session, what the trials say, the next spring stack, and sheets of the feeder's physics.</summary>
internal static class TuneLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var command = new Command("tune", "Finds the next rear spring stack from trials, and prints sheets of the feeder's physics.") { Advise(surroundings), TuneSessionLines.Checks(surroundings) };
        TuneSessionLines.AddSession(command, surroundings);
        foreach (var sheet in TuneSheetLines.Build(surroundings))
        {
            command.Add(sheet);
        }

        return command;
    }

    /// <summary>Makes the option for the feeder file.</summary>
    internal static Option<string> Feeder() => new("--feeder") { Description = "The feeder file (TOML).", Required = true };

    /// <summary>Makes the option for JSON.</summary>
    internal static Option<string?> Json() => new("--json") { Description = "Write the results as JSON to a file, or to standard output with -." };

    private static Command Advise(Surroundings surroundings)
    {
        var feeder = Feeder();
        var trials = new Option<string>("--trials") { Description = "The trials so far (TOML): [[trial]] with rear and stroke or capture, optionally natural_frequency_hz.", Required = true };
        var json = Json();
        var command = new Command("advise", "Says on which side of the tuning curve the feeder stands and which rear stack to put in next.") { feeder, trials, json };
        command.SetAction(parsed => TuneAdviseCommand.Run(parsed.GetValue(feeder)!, parsed.GetValue(trials)!, parsed.GetValue(json), surroundings));
        return command;
    }
}
