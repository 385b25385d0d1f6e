namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A key's value with the line it stands on: text, a number, true or false, a table, or a list.</summary>
/// <param name="Line">Line in the file, from 1.</param>
/// <param name="Value">A <see cref="string"/>, <see cref="double"/>, <see cref="long"/>, <see cref="bool"/>, <see cref="TomlNode"/>, a list of entries, or null for a kind that no key takes.</param>
internal sealed record TomlEntry(int Line, object? Value);
