namespace StrokeWatch.Configuration.Toml;

/// <summary>A value of a TOML file with the line it stands on.</summary>
internal abstract class TomlNode(int line)
{
    /// <summary>Gets the line, from 1.</summary>
    public int Line { get; } = line;
}

/// <summary>Text, a number, a truth value or a date.</summary>
internal sealed class TomlScalar(object value, string written, int line) : TomlNode(line)
{
    /// <summary>Gets the value: string, long, double, bool, or a date of the parser's own type.</summary>
    public object Value { get; } = value;

    /// <summary>Gets the value as the file writes it.</summary>
    public string Written { get; } = written;
}

/// <summary>An array, or the tables of one <c>[[name]]</c>.</summary>
internal sealed class TomlList(int line) : TomlNode(line)
{
    /// <summary>Gets the items in order.</summary>
    public List<TomlNode> Items { get; } = [];
}

/// <summary>The place of a value whose line cannot be read and was reported already: present, but silent.</summary>
internal sealed class TomlUnreadable(int line) : TomlNode(line);
