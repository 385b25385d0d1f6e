using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace StrokeWatch.Configuration.Scenarios;

/// <summary>A TOML table whose every key knows its line.</summary>
internal sealed class TomlNode(int line)
{
    /// <summary>Gets the line of the table's head, from 1.</summary>
    public int Line { get; } = line;

    /// <summary>Gets the entries.</summary>
    public SortedDictionary<string, TomlEntry> Entries { get; } = new(StringComparer.Ordinal);

    /// <summary>Reads a text; the first slip in its syntax goes to the errors.</summary>
    public static TomlNode Parse(string text, string file, List<string> errors)
    {
        var document = SyntaxParser.Parse(text, file, true);

        // What follows the first slip of syntax is mostly the parser's own confusion.
        foreach (var diagnostic in document.Diagnostics.Take(1))
        {
            errors.Add($"{file}:{diagnostic.Span.Start.Line + 1}: {diagnostic.Message}");
        }

        var root = new TomlNode(1);
        if (document.HasErrors)
        {
            return root;
        }

        root.Take(document.KeyValues);
        foreach (var table in document.Tables)
        {
            var names = Names(table.Name!);
            var holder = root.Walk(names[..^1], LineOf(table));
            if (table is TableArraySyntax)
            {
                var node = new TomlNode(LineOf(table));
                if (!holder.Entries.TryGetValue(names[^1], out var list) || list.Value is not List<TomlEntry>)
                {
                    holder.Entries[names[^1]] = list = new(LineOf(table), new List<TomlEntry>());
                }

                ((List<TomlEntry>)list.Value!).Add(new(LineOf(table), node));
                node.Take(table.Items);
            }
            else
            {
                holder.Walk(names[^1..], LineOf(table)).Take(table.Items);
            }
        }

        return root;
    }

    private static int LineOf(SyntaxNode node) => node.Span.Start.Line + 1;

    private static string[] Names(KeySyntax key) => [Name(key.Key!), .. key.DotKeys.Select(dot => Name(dot.Key!))];

    private static string Name(BareKeyOrStringValueSyntax key) =>
        key is StringValueSyntax text ? text.Value! : ((BareKeySyntax)key).Key!.Text!;

    private static object? Value(ValueSyntax value)
    {
        switch (value)
        {
            case StringValueSyntax text: return text.Value;
            case IntegerValueSyntax integer: return integer.Value;
            case FloatValueSyntax number: return number.Value;
            case BooleanValueSyntax flag: return flag.Value;
            case ArraySyntax array: return array.Items.Select(item => new TomlEntry(LineOf(item), Value(item.Value!))).ToList();
            case InlineTableSyntax table:
                var node = new TomlNode(LineOf(table));
                node.Take(table.Items.Select(item => item.KeyValue!));
                return node;
            default: return null;
        }
    }

    private void Take(IEnumerable<KeyValueSyntax> pairs)
    {
        foreach (var pair in pairs)
        {
            var names = Names(pair.Key!);
            Walk(names[..^1], LineOf(pair)).Entries[names[^1]] = new(LineOf(pair), Value(pair.Value!));
        }
    }

    private TomlNode Walk(string[] names, int line)
    {
        var node = this;
        foreach (var name in names)
        {
            if (!node.Entries.TryGetValue(name, out var entry))
            {
                node.Entries[name] = entry = new(line, new TomlNode(line));
            }

            // A table under [[list]] belongs to the list's last row.
            node = entry.Value as TomlNode ?? (TomlNode)((List<TomlEntry>)entry.Value!)[^1].Value!;
        }

        return node;
    }
}
