using System.CommandLine;
using System.CommandLine.Parsing;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Commands;

/// <summary>Says in one line what is wrong with the use of the command line, with the nearest known word.</summary>
internal static class UsageTrouble
{
    private const int FarthestMeant = 3;

    /// <summary>Gives the line; null where nothing is wrong.</summary>
    public static string? Find(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var path = PathOf(parsed.CommandResult);
        if (UnknownOption(parsed, command) is { } option)
        {
            var known = command.Options.Select(o => o.Name).Where(name => name.StartsWith("--", StringComparison.Ordinal));
            return $"{path}: unknown option {option}{Meant(option, known)}; see {path} --help";
        }

        if (parsed.Errors.Count == 0)
        {
            return null;
        }

        if (command.Subcommands.Count > 0)
        {
            var commands = command.Subcommands.Select(c => c.Name).ToList();
            return parsed.UnmatchedTokens.FirstOrDefault() is { } word
                ? $"{path}: unknown command '{word}'{Meant(word, commands)}; the commands are {string.Join(", ", commands)}"
                : $"{path}: no command is given; the commands are {string.Join(", ", commands)}; see {path} --help";
        }

        if (parsed.CommandResult.Children.OfType<OptionResult>().FirstOrDefault(given => !given.Implicit && given.Tokens.Count < given.Option.Arity.MinimumNumberOfValues) is { } bare)
        {
            return $"{path}: {bare.Option.Name} needs a value after it; see {path} --help";
        }

        if (Missing(parsed, command) is { Length: > 0 } missing)
        {
            return $"{path}: {missing} missing; see {path} --help";
        }

        return $"{path}: {parsed.Errors[0].Message.TrimEnd('.').ReplaceLineEndings(" ")}; see {path} --help";
    }

    /// <summary>Finds a word that looks like an option and was taken for an argument, or for nothing.</summary>
    private static string? UnknownOption(ParseResult parsed, Command command) =>
        parsed.CommandResult.Children.OfType<ArgumentResult>().SelectMany(argument => argument.Tokens).Select(token => token.Value)
            .Concat(command.Subcommands.Count > 0 ? parsed.UnmatchedTokens.Take(1) : parsed.UnmatchedTokens)
            .FirstOrDefault(word => word.StartsWith("--", StringComparison.Ordinal) && word.Length > 2);

    /// <summary>Names the arguments and options that must be there and are not, with the verb; empty where none is.</summary>
    private static string Missing(ParseResult parsed, Command command)
    {
        List<string> names =
        [
            .. command.Arguments.Where(argument => (parsed.GetResult(argument)?.Tokens.Count ?? 0) < argument.Arity.MinimumNumberOfValues).Select(argument => argument.Name),
            .. command.Options.Where(option => option.Required && parsed.GetResult(option) is null or { Implicit: true }).Select(option => option.Name),
        ];
        return names.Count switch
        {
            0 => "",
            1 => $"{names[0]} is",
            _ => $"{string.Join(", ", names[..^1])} and {names[^1]} are",
        };
    }

    /// <summary>Gives a command as the user writes it, with the commands above it.</summary>
    private static string PathOf(CommandResult command) =>
        command.Parent is CommandResult above ? $"{PathOf(above)} {command.Command.Name}" : "strokewatch";

    /// <summary>Gives the nearest known word where it is near: a short word that shares less than half of its letters was hardly meant.</summary>
    private static string Meant(string word, IEnumerable<string> known) =>
        EditDistance.Nearest(word, known) is { } nearest && EditDistance.Between(word, nearest) is var apart && apart <= FarthestMeant && 2 * apart <= word.TrimStart('-').Length
            ? $"; did you mean {nearest}?" : "";
}
