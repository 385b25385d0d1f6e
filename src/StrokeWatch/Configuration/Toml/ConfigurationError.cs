using System.Globalization;

namespace StrokeWatch.Configuration.Toml;

/// <summary>One thing that is wrong in a configuration file: what it is, and what was expected.</summary>
/// <param name="File">The file as the user named it.</param>
/// <param name="Line">The line, from 1; 0 where the whole file is meant.</param>
/// <param name="Message">What is wrong; what was expected.</param>
internal sealed record ConfigurationError(string File, int Line, string Message)
{
    /// <summary>Writes <c>file:line: what; what was expected</c> on one line.</summary>
    public override string ToString() => Line > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{File}:{Line}: {Message}")
        : $"{File}: {Message}";
}
