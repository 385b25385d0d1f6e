using System.Globalization;
using System.Text;

namespace StrokeWatch.Configuration.Toml;

/// <summary>One thing that is wrong in a configuration file: what it is, and what was expected.</summary>
/// <param name="File">The file as the user named it.</param>
/// <param name="Line">The line, from 1; 0 where the whole file is meant.</param>
/// <param name="Message">What is wrong; what was expected.</param>
internal sealed record ConfigurationError(string File, int Line, string Message)
{
    /// <summary>Writes <c>file:line: what; what was expected</c> on one line: a line end or another control in a name that a file gives is written as its number.</summary>
    public override string ToString() => OnOneLine(Line > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{File}:{Line}: {Message}")
        : $"{File}: {Message}");

    private static string OnOneLine(string text)
    {
        if (!text.Any(IsBreak))
        {
            return text;
        }

        var line = new StringBuilder(text.Length + 8);
        foreach (var sign in text)
        {
            _ = IsBreak(sign) ? line.Append(CultureInfo.InvariantCulture, $"\\u{(int)sign:x4}") : line.Append(sign);
        }

        return line.ToString();
    }

    private static bool IsBreak(char sign) => char.IsControl(sign) || sign is '\u2028' or '\u2029';
}
