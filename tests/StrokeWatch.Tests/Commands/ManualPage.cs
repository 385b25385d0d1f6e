using System.CommandLine;
using System.CommandLine.Help;
using System.Text;

namespace StrokeWatch.Tests.Commands;

/// <summary>The part of the manual page that the table of commands gives, as roff: every command, argument and option with its own words.</summary>
internal static class ManualPage
{
    /// <summary>Writes the part for all commands under a root.</summary>
    public static string Commands(RootCommand root)
    {
        var text = new StringBuilder();
        foreach (var command in root.Subcommands)
        {
            Command(text, command, command.Name);
        }

        return text.ToString();
    }

    private static void Command(StringBuilder text, Command command, string path)
    {
        if (command.Hidden)
        {
            return;
        }

        text.Append(".SS ").Append(Plain(path)).Append('\n').Append(Paragraph(command.Description));
        foreach (var argument in command.Arguments.Where(argument => !argument.Hidden))
        {
            var many = argument.Arity.MaximumNumberOfValues > 1 ? "\\ ..." : "";
            text.Append(".TP\n.I ").Append(Plain(argument.Name.ToUpperInvariant())).Append(many).Append('\n').Append(Paragraph(argument.Description));
        }

        foreach (var option in command.Options.Where(option => !option.Hidden && option is not HelpOption))
        {
            var value = option.ValueType == typeof(bool) ? "" : " \\fI" + Plain(option.HelpName ?? "VALUE") + "\\fR";
            var names = string.Join("\\fR, \\fB", option.Aliases.Append(option.Name).Select(Plain));
            text.Append(".TP\n\\fB").Append(names).Append("\\fR").Append(value).Append(option.Required ? " (needed)" : "").Append('\n').Append(Paragraph(option.Description));
        }

        foreach (var inner in command.Subcommands)
        {
            Command(text, inner, $"{path} {inner.Name}");
        }
    }

    /// <summary>Writes a paragraph: no line of it may begin as a request of roff does.</summary>
    private static string Paragraph(string? words)
    {
        var plain = Plain(words ?? "");
        return (plain.StartsWith('.') || plain.StartsWith('\'') ? "\\&" : "") + plain + "\n";
    }

    private static string Plain(string words) => words.ReplaceLineEndings(" ").Replace("\\", "\\e", StringComparison.Ordinal).Replace("-", "\\-", StringComparison.Ordinal);
}
