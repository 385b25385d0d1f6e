using System.Text.RegularExpressions;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace StrokeWatch.Configuration.Toml;

/// <summary>
/// Finds every syntax error of a TOML text: reports the first, takes its line out and parses again, so that one bad line neither hides what is wrong
/// below it nor brings a train of follow-on errors.
/// </summary>
internal static partial class SyntaxRepair
{
    /// <summary>The text value that stands in for a value whose line could not be read.</summary>
    public const string Stand = "\uE000unreadable\uE000";

    private const int MostErrors = 20;

    /// <summary>Parses; null where there are so many errors that the file is hardly meant as TOML.</summary>
    public static DocumentSyntax? Parse(string text, ConfigurationErrors errors)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var taken = new HashSet<int>();
        var reported = 0;
        while (true)
        {
            if (Parsed(lines) is not { } document)
            {
                var bad = FirstUnreadable(lines);
                errors.Add(bad + 1, "a \\u or \\U escape is not whole or names no character; write the character itself");
                lines[bad] = taken.Add(bad) ? StandIn(lines[bad]) : "";
                if (++reported == MostErrors)
                {
                    return null;
                }

                continue;
            }

            var first = document.Diagnostics.Where(d => d.Kind == DiagnosticMessageKind.Error).MinBy(d => d.Span.Start.Offset);
            if (first is null)
            {
                return document;
            }

            var line = Math.Clamp(first.Span.Start.Line, 0, lines.Length - 1);
            var end = line == lines.Length - 1 && lines[line].Length == 0;
            var opened = OpenBrackets.FirstOpen(lines, line);
            if (opened < line && opened >= 0 && (end || LooksLikeStatement().IsMatch(lines[line])))
            {
                errors.Add(opened + 1, $"what opens on this line is not closed by line {line + 1}; a closing bracket or quote was expected");
                reported++;
                Array.Fill(lines, "", opened + 1, line - opened - 1);
                lines[opened] = StandIn(lines[opened]);
                taken.Add(opened);
            }
            else if (taken.Add(line))
            {
                errors.Add(line + 1, SyntaxWords.For(first.Message, lines[line]));
                reported++;
                lines[line] = opened >= 0 && opened < line ? "" : StandIn(lines[line]);
            }
            else if (lines[line].Length > 0)
            {
                lines[line] = "";
            }
            else
            {
                return null;
            }

            if (reported == MostErrors)
            {
                errors.Add(line + 1, "too many errors; the rest of the file was not read");
                return null;
            }
        }
    }

    /// <summary>Parses; null where the parser itself gives up, which Tomlyn 2.10 does where a text ends within an escape (found by `fuzz feeder`).</summary>
    private static DocumentSyntax? Parsed(IEnumerable<string> lines)
    {
        try
        {
            return SyntaxParser.Parse(string.Join('\n', lines), validate: false);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Finds a line at which the parser gives up: the text before it is read, the text with it is not.</summary>
    private static int FirstUnreadable(string[] lines)
    {
        var (good, bad) = (0, lines.Length);
        while (bad - good > 1)
        {
            var middle = (good + bad) / 2;
            (good, bad) = Parsed(lines.Take(middle)) is null ? (good, middle) : (middle, bad);
        }

        return bad - 1;
    }

    /// <summary>Keeps a bad line's key or table name, so that it is not reported as missing as well.</summary>
    private static string StandIn(string line)
    {
        var header = Header().Match(line);
        if (header.Success)
        {
            return line.TrimStart().StartsWith("[[", StringComparison.Ordinal) ? $"[[{header.Groups[1].Value}]]" : $"[{header.Groups[1].Value}]";
        }

        var key = Key().Match(line);
        return key.Success ? $"{key.Groups[1].Value} = \"{Stand}\"" : "";
    }

    [GeneratedRegex(@"^\s*([A-Za-z0-9_-]+(\s*\.\s*[A-Za-z0-9_-]+)*\s*=|\[\[?\s*[A-Za-z])")]
    private static partial Regex LooksLikeStatement();

    [GeneratedRegex(@"^\s*\[\[?\s*([A-Za-z0-9_-]+(\.[A-Za-z0-9_-]+)*)")]
    private static partial Regex Header();

    [GeneratedRegex(@"^\s*([A-Za-z0-9_-]+)(\s|=|$)")]
    private static partial Regex Key();
}
