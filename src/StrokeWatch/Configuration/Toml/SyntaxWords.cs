using System.Text.RegularExpressions;

namespace StrokeWatch.Configuration.Toml;

/// <summary>Words a syntax error for a person: the usual slips by what to write instead, the others by what the parser says.</summary>
internal static partial class SyntaxWords
{
    /// <summary>Gives the message for what the parser said of a line.</summary>
    public static string For(string said, string line)
    {
        var length = BareLength().Match(line);
        if (length.Success)
        {
            return $"a length without quotes; {length.Groups["key"].Value} = \"{length.Groups["number"].Value} {length.Groups["unit"].Value}\" was expected";
        }

        var comma = DecimalComma().Match(line);
        if (comma.Success)
        {
            return $"a number with a decimal comma; a decimal point was expected: {comma.Groups["whole"].Value}.{comma.Groups["part"].Value}";
        }

        if (said.Contains("Invalid newline in a string", StringComparison.Ordinal) || said.Contains("Invalid End-Of-File", StringComparison.Ordinal))
        {
            return "text without its closing quote; both quotes were expected on one line";
        }

        if (said.Contains("Unable to parse", StringComparison.Ordinal))
        {
            return $"{char.ToLowerInvariant(said[0])}{said[1..]}; a number that fits in 64 bits was expected";
        }

        if (!line.Contains('=') && !line.TrimStart().StartsWith('['))
        {
            return "not TOML; `key = value`, `[table]` or a `#` comment was expected";
        }

        var plain = TokenNames().Replace(said, "").Replace("␤", "end of line", StringComparison.Ordinal).ReplaceLineEndings(" ");
        return $"not TOML: {char.ToLowerInvariant(plain[0])}{plain[1..]}; `key = value`, `[table]` or a `#` comment was expected";
    }

    [GeneratedRegex(@"^\s*(?<key>[A-Za-z0-9_-]+)\s*=\s*(?<number>[-+]?[0-9.]+)\s*(?<unit>mm|in|mil)\b")]
    private static partial Regex BareLength();

    [GeneratedRegex(@"=\s*(?<whole>[-+]?[0-9]+),(?<part>[0-9]+)\s*(#.*)?$")]
    private static partial Regex DecimalComma();

    [GeneratedRegex(@" \(token: `[^`]*`\)")]
    private static partial Regex TokenNames();
}
