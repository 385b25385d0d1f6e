using System.CommandLine;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Commands;

/// <summary>The command <c>baseline</c>: what a healthy feeder is, learned from captures or told at commissioning, and shown.</summary>
internal static class BaselineLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings) => new("baseline", "Keeps what a healthy feeder is; each new version is added to those before.")
    {
        Learn(surroundings),
        Tell(surroundings),
        Take(surroundings),
        Show(surroundings),
    };

    private static Option<string> Feeder() => new("--feeder") { Description = "The feeder file (TOML).", Required = true };

    private static Option<string?> Target() => new("--out") { Description = "The file of baselines; NAME.baseline.json beside the feeder file where not given." };

    private static Option<string?> Note() => new("--note") { Description = "Why this version is made, in words." };

    private static Command Learn(Surroundings surroundings)
    {
        var captures = new Argument<string[]>("CAPTURE") { Description = "Captures of the healthy feeder, three or more; those with an alarm are left out.", Arity = ArgumentArity.OneOrMore };
        var feeder = Feeder();
        var target = Target();
        var note = Note();
        var options = new CaptureArguments();
        var command = new Command("learn", "Learns a baseline from captures of the healthy feeder.") { captures, feeder, target, note };
        options.AddTo(command);
        command.SetAction(parsed =>
        {
            if (options.Read(parsed, out var error) is not { } capture)
            {
                surroundings.Error.WriteLine($"strokewatch baseline learn: {error}");
                return CommandLine.Bad;
            }

            return new BaselineLearnCommand
            {
                Captures = parsed.GetValue(captures)!,
                FeederFile = parsed.GetValue(feeder)!,
                Target = parsed.GetValue(target),
                Note = parsed.GetValue(note),
                Options = capture,
            }.Run(surroundings);
        });
        return command;
    }

    private static Command Tell(Surroundings surroundings)
    {
        var feeder = Feeder();
        var features = new Option<string[]>("--feature")
        {
            Description = "A feature with mean and spread (standard deviation between readings), as in natural_frequency_hz=66.2,0.1; give the option once for each.",
            Required = true,
        };
        var target = Target();
        var note = Note();
        var command = new Command("tell", "Takes down a baseline that is known, as at commissioning.") { feeder, features, target, note };
        command.SetAction(parsed => new BaselineTellCommand
        {
            FeederFile = parsed.GetValue(feeder)!,
            Features = parsed.GetValue(features)!,
            Target = parsed.GetValue(target),
            Note = parsed.GetValue(note),
        }.Run(surroundings));
        return command;
    }

    private static Command Take(Surroundings surroundings)
    {
        var version = new Argument<int>("VERSION") { Description = "The number of an earlier version, as baseline show prints it." };
        var feeder = Feeder();
        var target = Target();
        var note = Note();
        var command = new Command("take", "Puts an earlier version in force again, as a new version.") { version, feeder, target, note };
        command.SetAction(parsed =>
        {
            if (BaselineOutcome.Feeder(parsed.GetValue(feeder)!, surroundings) is null)
            {
                return CommandLine.Bad;
            }

            var path = parsed.GetValue(target) ?? BaselineFile.Beside(parsed.GetValue(feeder)!);
            var errors = new ConfigurationErrors(path);
            return BaselineOutcome.Shown(path, BaselineFile.Take(path, parsed.GetValue(version), surroundings.Time.GetUtcNow(), parsed.GetValue(note), errors), errors, surroundings)
                ? CommandLine.Well : CommandLine.Bad;
        });
        return command;
    }

    private static Command Show(Surroundings surroundings)
    {
        var file = new Argument<string>("FILE") { Description = "A file of baselines." };
        var command = new Command("show", "Prints all versions, and the features of the one in force.") { file };
        command.SetAction(parsed => BaselineShowCommand.Run(parsed.GetValue(file)!, surroundings));
        return command;
    }
}
