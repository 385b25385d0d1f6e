namespace StrokeWatch.Configuration.Toml;

/// <summary>A table of a TOML file: its keys with their values.</summary>
internal sealed class TomlTable(string path, int line) : TomlNode(line)
{
    /// <summary>Gets the dotted name; empty for the file's top.</summary>
    public string Path { get; } = path;

    /// <summary>Gets the values by key, in the order of the file.</summary>
    public Dictionary<string, TomlNode> Entries { get; } = new(StringComparer.Ordinal);

    /// <summary>Gets the line of each key, from 1.</summary>
    public Dictionary<string, int> KeyLines { get; } = new(StringComparer.Ordinal);

    /// <summary>Gets or sets whether a header or a value has defined the table, so that a second one would repeat it.</summary>
    public bool Defined { get; set; }

    /// <summary>Gets the name as messages write it: <c>[stroke]</c>, or "the file" for its top.</summary>
    public string Title => Path.Length == 0 ? "the file" : $"[{Path}]";

    /// <summary>Gives the dotted name of a key in this table.</summary>
    public string PathOf(string key) => Path.Length == 0 ? key : $"{Path}.{key}";

    /// <summary>Puts a value under a key.</summary>
    public void Put(string key, TomlNode node, int line)
    {
        Entries[key] = node;
        KeyLines[key] = line;
    }
}
