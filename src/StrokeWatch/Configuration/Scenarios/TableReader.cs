using System.Globalization;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>
/// Reads the keys of one table; everything wrong goes to one list, each with file and line, and a key that nothing asked for is an error
/// with the nearest known one.
/// </summary>
internal sealed class TableReader(TomlNode node, string title, string file, List<string> errors)
{
    private readonly SortedSet<string> known = new(StringComparer.Ordinal);

    /// <summary>Says whether a key is there.</summary>
    public bool Has(string key)
    {
        known.Add(key);
        return node.Entries.ContainsKey(key);
    }

    /// <summary>Says whether a key is there with this very text.</summary>
    public bool Is(string key, string text) => Find(key)?.Value as string == text;

    /// <summary>Reads a number within limits.</summary>
    public double Number(string key, double otherwise, double low, double high) => Number(key, low, high) ?? otherwise;

    /// <summary>Reads a number within limits, if it is there.</summary>
    public double? Number(string key, double low, double high) =>
        Find(key) is { } entry ? Number(entry, $"\"{key}\"", low, high) : null;

    /// <summary>Reads a whole number within limits.</summary>
    public int Integer(string key, int otherwise, int low, int high)
    {
        if (Find(key) is not { } entry)
        {
            return otherwise;
        }

        if (entry.Value is long value && value >= low && value <= high)
        {
            return (int)value;
        }

        Wrong(entry.Line, $"\"{key}\" must be a whole number from {low} to {high}");
        return otherwise;
    }

    /// <summary>Reads text.</summary>
    public string? Text(string key)
    {
        if (Find(key) is not { } entry)
        {
            return null;
        }

        if (entry.Value is string text && text.Length > 0)
        {
            return text;
        }

        Wrong(entry.Line, $"\"{key}\" must be text in quotation marks");
        return null;
    }

    /// <summary>Reads one of several words.</summary>
    public string? Choice(string key, params string[] words)
    {
        var text = Text(key);
        if (text is null || words.Contains(text))
        {
            return text;
        }

        Wrong(node.Entries[key].Line, $"\"{key}\" must be one of {string.Join(", ", words.Select(word => $"\"{word}\""))}");
        return null;
    }

    /// <summary>Reads true or false.</summary>
    public bool Flag(string key, bool otherwise)
    {
        if (Find(key) is not { } entry)
        {
            return otherwise;
        }

        if (entry.Value is bool flag)
        {
            return flag;
        }

        Wrong(entry.Line, $"\"{key}\" must be true or false");
        return otherwise;
    }

    /// <summary>Reads a length above zero with its unit.</summary>
    public Length? Length(string key)
    {
        if (Find(key) is not { } entry)
        {
            return null;
        }

        if (entry.Value is string text && Samples.Quantities.Length.TryParse(text, out var length) && length.Metres > 0)
        {
            return length;
        }

        Wrong(entry.Line, $"\"{key}\" must be a length above zero with its unit, such as \"1.65 mm\", \"0.065 in\" or \"65 mil\"");
        return null;
    }

    /// <summary>Reads a list of numbers within limits, of a fixed length where one is given.</summary>
    public IReadOnlyList<double>? Numbers(string key, double low, double high, int? count = null)
    {
        if (Find(key) is not { } entry)
        {
            return null;
        }

        if (entry.Value is not List<TomlEntry> list || (count is { } wanted && list.Count != wanted))
        {
            Wrong(entry.Line, $"\"{key}\" must be a list of {(count is null ? "" : $"{count} ")}numbers");
            return null;
        }

        return [.. list.Select(item => Number(item, $"each of \"{key}\"", low, high)).OfType<double>()];
    }

    /// <summary>Gives the reader of a table; of an empty one where it is not there.</summary>
    public TableReader Table(string key)
    {
        var name = title.Length == 0 ? key : $"{title}.{key}";
        if (Find(key) is { } entry)
        {
            if (entry.Value is TomlNode table)
            {
                return new(table, name, file, errors);
            }

            Wrong(entry.Line, $"\"{key}\" must be a table");
        }

        return new(new TomlNode(node.Line), name, file, errors);
    }

    /// <summary>Reads the rows of a list of tables.</summary>
    public List<T> Rows<T>(string key, Func<TableReader, T> read)
    {
        var rows = new List<T>();
        if (Find(key) is not { } entry)
        {
            return rows;
        }

        if (entry.Value is not List<TomlEntry> list || list.Any(item => item.Value is not TomlNode))
        {
            Wrong(entry.Line, $"\"{key}\" must be a list of tables");
            return rows;
        }

        foreach (var item in list)
        {
            var reader = new TableReader((TomlNode)item.Value!, title.Length == 0 ? key : $"{title}.{key}", file, errors);
            rows.Add(read(reader));
            reader.Finish();
        }

        return rows;
    }

    /// <summary>Reports a key that must be there and is not.</summary>
    public void Need(string key)
    {
        if (!Has(key))
        {
            Wrong(node.Line, $"[{title}] needs \"{key}\"");
        }
    }

    /// <summary>Reports that two keys contradict each other, at the line of the first.</summary>
    public void Conflict(string key, string message) => Wrong(node.Entries.TryGetValue(key, out var entry) ? entry.Line : node.Line, message);

    /// <summary>Reports every key that nothing has asked for.</summary>
    public void Finish()
    {
        foreach (var (key, entry) in node.Entries.Where(pair => !known.Contains(pair.Key)))
        {
            var near = known.MinBy(candidate => Spelling.Distance(candidate, key));
            var place = title.Length == 0 ? "at the top" : $"in [{title}]";
            Wrong(entry.Line, $"unknown key \"{key}\" {place}{(near is null ? "" : $"; the nearest known is \"{near}\"")}");
        }
    }

    private TomlEntry? Find(string key)
    {
        known.Add(key);
        return node.Entries.GetValueOrDefault(key);
    }

    private double? Number(TomlEntry entry, string what, double low, double high)
    {
        double? value = entry.Value switch { double number => number, long integer => integer, _ => null };
        if (value >= low && value <= high)
        {
            return value;
        }

        Wrong(entry.Line, string.Create(CultureInfo.InvariantCulture, $"{what} must be a number from {low} to {high}"));
        return null;
    }

    private void Wrong(int line, string message) => errors.Add($"{file}:{line}: {message}");
}
