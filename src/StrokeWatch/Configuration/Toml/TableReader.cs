using System.Globalization;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration.Toml;

/// <summary>
/// Reads the values of one table by type and range; each refusal becomes an error with its line, and <see cref="Finish"/> refuses every key that was never asked for.
/// </summary>
internal sealed class TableReader(TomlTable table, ConfigurationErrors errors)
{
    private readonly SortedSet<string> known = new(StringComparer.Ordinal);

    /// <summary>Gets the table's name as messages write it.</summary>
    public string Title => table.Title;

    /// <summary>Gets the line of the table, from 1.</summary>
    public int Line => table.Line;

    /// <summary>Says whether a key is there, readable or not.</summary>
    public bool Has(string key) => table.Entries.ContainsKey(key);

    /// <summary>Says whether a key holds a list.</summary>
    public bool IsList(string key) => table.Entries.TryGetValue(key, out var node) && node is TomlList;

    /// <summary>Gives the line of a key, or of the table where the key is not there.</summary>
    public int LineOf(string key) => table.KeyLines.GetValueOrDefault(key, table.Line);

    /// <summary>Adds an error at a key's line.</summary>
    public void Refuse(string key, string message) => errors.Add(LineOf(key), message);

    /// <summary>Refuses the table where a key is missing.</summary>
    public void Require(string key, string expected)
    {
        if (!Has(key))
        {
            errors.Add(table.Line, $"`{key}` is missing in {Title}; {expected} was expected");
        }
    }

    /// <summary>Reads a number within a range, ends included; NaN and infinities are refused.</summary>
    public double? Number(string key, double least, double most, string unit = "") =>
        Find(key) is { } node ? Number(node, key, least, most, unit) : null;

    /// <summary>Reads a list of numbers, each within a range; of so many where a count is given.</summary>
    public IReadOnlyList<double>? Numbers(string key, double least, double most, string unit = "", int? count = null)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is not TomlList list)
        {
            Wrong(node, key, $"a list such as [{Plain(least)}, {Plain(most)}] was expected");
            return null;
        }

        if (count is { } wanted && list.Items.Count != wanted)
        {
            Wrong(node, key, string.Create(CultureInfo.InvariantCulture, $"a list of {wanted} numbers was expected"));
            return null;
        }

        var numbers = list.Items.Select(i => Number(i, key, least, most, unit)).ToList();
        return numbers.Contains(null) ? null : numbers.ConvertAll(n => n!.Value);
    }

    /// <summary>Reads a whole number within a range, ends included.</summary>
    public int? Integer(string key, int least, int most)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is TomlScalar { Value: long value } && value >= least && value <= most)
        {
            return (int)value;
        }

        Wrong(node, key, string.Create(CultureInfo.InvariantCulture, $"a whole number from {least} to {most} was expected"));
        return null;
    }

    /// <summary>Reads true or false.</summary>
    public bool? Flag(string key)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is TomlScalar { Value: bool flag })
        {
            return flag;
        }

        Wrong(node, key, "true or false was expected");
        return null;
    }

    /// <summary>Reads text that is not blank.</summary>
    public string? Text(string key, string expected)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is TomlScalar { Value: string text } && !string.IsNullOrWhiteSpace(text))
        {
            return text;
        }

        Wrong(node, key, $"{expected} was expected");
        return null;
    }

    /// <summary>Reads one of some words.</summary>
    public string? Choice(string key, params string[] words)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is TomlScalar { Value: string text } && words.Contains(text))
        {
            return text;
        }

        Wrong(node, key, $"{string.Join(" or ", words.Select(w => $"\"{w}\""))} was expected");
        return null;
    }

    /// <summary>Reads a list of whole numbers from 1 or, where they may stand there, names in quotes; null where it is not there or anything else is in it.</summary>
    public IReadOnlyList<object>? Items(string key, string expected, int least, int most, bool names)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        var items = (node as TomlList)?.Items.OfType<TomlScalar>().Select(item => item.Value).ToList();
        if (items is not null && items.Count == ((TomlList)node).Items.Count && items.Count >= least && items.Count <= most
            && items.TrueForAll(item => item is long and >= 1 and <= 10_000 || (names && item is string text && !string.IsNullOrWhiteSpace(text))))
        {
            return items;
        }

        Wrong(node, key, $"{expected} was expected");
        return null;
    }

    /// <summary>Reads a number within a range, or a word (given as NaN-free null with <paramref name="word"/> set).</summary>
    public double? NumberOr(string key, string wordExpected, double least, double most, out bool word)
    {
        word = Has(key) && table.Entries[key] is TomlScalar { Value: string text } && text == wordExpected;
        if (word)
        {
            known.Add(key);
            return null;
        }

        if (Find(key) is TomlScalar { Value: long or double } number)
        {
            return Number(number, key, least, most, "");
        }

        if (Find(key) is { } node)
        {
            Wrong(node, key, $"\"{wordExpected}\" or a number from {Plain(least)} to {Plain(most)} was expected");
        }

        return null;
    }

    /// <summary>Reads a length with its unit, within a range, ends included.</summary>
    public Length? Length(string key, Length least, Length most)
    {
        const string Expected = "a length in quotes with its unit mm, in or mil was expected, such as \"1.65 mm\"";
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is not TomlScalar { Value: string text } || !Samples.Quantities.Length.TryParse(text, out var length))
        {
            Wrong(node, key, Expected);
            return null;
        }

        if (length.CompareTo(least) < 0 || length.CompareTo(most) > 0)
        {
            Wrong(node, key, $"a length from {least} to {most} was expected");
            return null;
        }

        return length;
    }

    /// <summary>Opens a table; null where it is not there.</summary>
    public TableReader? Table(string key)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is TomlTable inner)
        {
            return new(inner, errors);
        }

        Wrong(node, key, $"a table [{table.PathOf(key)}] was expected");
        return null;
    }

    /// <summary>Opens a table; an empty one where it is not there.</summary>
    public TableReader TableOrEmpty(string key) => Table(key) ?? new(new TomlTable(table.PathOf(key), LineOf(key)), errors);

    /// <summary>Reads each table of a list to its end; null where it is not there or not such a list.</summary>
    public IReadOnlyList<T>? Rows<T>(string key, string expected, Func<TableReader, T> read, int least = 0)
    {
        if (Find(key) is not { } node)
        {
            return null;
        }

        if (node is not TomlList list || list.Items.Count < least || !list.Items.TrueForAll(i => i is TomlTable))
        {
            Wrong(node, key, $"{expected} was expected");
            return null;
        }

        var rows = new List<T>();
        foreach (var item in list.Items)
        {
            var reader = new TableReader((TomlTable)item, errors);
            rows.Add(read(reader));
            reader.Finish();
        }

        return rows;
    }

    /// <summary>Opens every table within this one by its key; all keys count as known.</summary>
    public IReadOnlyDictionary<string, TableReader> AllTables() => table.Entries.Keys
        .Select(key => (key, reader: Table(key)))
        .Where(pair => pair.reader is not null)
        .ToDictionary(pair => pair.key, pair => pair.reader!, StringComparer.Ordinal);

    /// <summary>Gives whether a key is there that may stand elsewhere but not here: the caller refuses it.</summary>
    public bool HasForeign(string key) => known.Add(key) && Has(key);

    /// <summary>Refuses every key that was never asked for, and names the nearest known one.</summary>
    public void Finish()
    {
        foreach (var key in table.Entries.Keys.Where(k => !known.Contains(k)))
        {
            var where = table.Path.Length == 0 ? "" : $" in {Title}";
            var kind = table.Entries[key] is TomlTable or TomlList { Items: [TomlTable, ..] } ? "table" : "key";
            Refuse(key, $"unknown {kind} `{key}`{where}; did you mean `{EditDistance.Nearest(key, known)}`? Known here: {string.Join(", ", known)}");
        }
    }

    private static string Plain(double value) => value.ToString("0.############", CultureInfo.InvariantCulture);

    private TomlNode? Find(string key)
    {
        known.Add(key);
        return table.Entries.TryGetValue(key, out var node) && node is not TomlUnreadable ? node : null;
    }

    private double? Number(TomlNode node, string key, double least, double most, string unit)
    {
        double? value = node is TomlScalar scalar ? scalar.Value switch { long whole => whole, double real => real, _ => null } : null;
        if (value is { } number && double.IsFinite(number) && number >= least && number <= most)
        {
            return number;
        }

        Wrong(node, key, $"a number from {Plain(least)} to {Plain(most)}{(unit.Length > 0 ? " " + unit : "")} was expected");
        return null;
    }

    private void Wrong(TomlNode node, string key, string expected)
    {
        var written = node switch
        {
            TomlScalar { Written: var text } => text.ReplaceLineEndings(" "),
            TomlList => "a list",
            _ => "a table",
        };
        var shown = written.Length > 60 ? written[..60] + "…" : written;
        errors.Add(node.Line, $"`{table.PathOf(key)}` is {shown}; {expected}");
    }
}
