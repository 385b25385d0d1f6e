using Tomlyn.Syntax;

namespace StrokeWatch.Configuration.Toml;

/// <summary>Makes tables of a parsed document and reports keys and tables given twice.</summary>
internal sealed class TreeBuilder
{
    private readonly ConfigurationErrors errors;

    private TreeBuilder(ConfigurationErrors errors) => this.errors = errors;

    /// <summary>Builds the tree of a document that parsed without error.</summary>
    public static TomlTable Build(DocumentSyntax document, ConfigurationErrors errors)
    {
        var builder = new TreeBuilder(errors);
        var root = new TomlTable("", 1) { Defined = true };
        builder.Fill(root, document.KeyValues);
        foreach (var section in document.Tables)
        {
            if (builder.Open(root, section) is { } table)
            {
                builder.Fill(table, section.Items);
            }
        }

        return root;
    }

    private static int LineOf(SyntaxNodeBase node) => node.Span.Start.Line + 1;

    private static List<string> Parts(KeySyntax? key)
    {
        List<string> parts = [];
        if (key is not null)
        {
            parts.Add(Part(key.Key));
            foreach (var dotted in key.DotKeys)
            {
                parts.Add(Part(dotted.Key));
            }
        }

        return parts;
    }

    private static string Part(BareKeyOrStringValueSyntax? part) => part switch
    {
        BareKeySyntax bare => bare.Key?.Text ?? "",
        StringValueSyntax text => text.Value ?? "",
        _ => "",
    };

    private TomlTable? Open(TomlTable root, TableSyntaxBase section)
    {
        var line = LineOf(section);
        var parts = Parts(section.Name);
        var parent = Descend(root, parts, line);
        if (parent is null)
        {
            return null;
        }

        var key = parts[^1];
        parent.Entries.TryGetValue(key, out var there);
        if (section is TableArraySyntax)
        {
            if (there is not (null or TomlList))
            {
                return Twice(parent, key, line);
            }

            var list = there as TomlList ?? new TomlList(line);
            var item = new TomlTable(parent.PathOf(key), line) { Defined = true };
            list.Items.Add(item);
            parent.Put(key, list, parent.KeyLines.GetValueOrDefault(key, line));
            return item;
        }

        if (there is not (null or TomlTable { Defined: false }))
        {
            return Twice(parent, key, line);
        }

        var table = there as TomlTable ?? new TomlTable(parent.PathOf(key), line);
        table.Defined = true;
        parent.Put(key, table, line);
        return table;
    }

    private void Fill(TomlTable table, IEnumerable<KeyValueSyntax> pairs)
    {
        foreach (var pair in pairs)
        {
            var line = LineOf(pair);
            var parts = Parts(pair.Key);
            var owner = Descend(table, parts, line);
            if (owner is null || pair.Value is null)
            {
                continue;
            }

            if (owner.Entries.ContainsKey(parts[^1]))
            {
                Twice(owner, parts[^1], line);
                continue;
            }

            owner.Put(parts[^1], Node(pair.Value, owner.PathOf(parts[^1])), line);
        }
    }

    private TomlTable? Descend(TomlTable from, List<string> parts, int line)
    {
        var table = from;
        foreach (var part in parts.SkipLast(1))
        {
            if (!table.Entries.TryGetValue(part, out var next))
            {
                next = new TomlTable(table.PathOf(part), line);
                table.Put(part, next, line);
            }

            if (((next as TomlList)?.Items.LastOrDefault() ?? next) is not TomlTable inner)
            {
                return Twice(table, part, line);
            }

            table = inner;
        }

        return table;
    }

    private TomlNode Node(ValueSyntax value, string path)
    {
        var line = LineOf(value);
        var written = value.ToString().Trim();
        switch (value)
        {
            case StringValueSyntax { Value: SyntaxRepair.Stand }:
                return new TomlUnreadable(line);
            case StringValueSyntax text:
                return new TomlScalar(text.Value ?? "", written, line);
            case IntegerValueSyntax integer:
                return new TomlScalar(integer.Value, written, line);
            case FloatValueSyntax number:
                return new TomlScalar(number.Value, written, line);
            case BooleanValueSyntax truth:
                return new TomlScalar(truth.Value, written, line);
            case ArraySyntax array:
                var list = new TomlList(line);
                list.Items.AddRange(array.Items.Where(i => i.Value is not null).Select(i => Node(i.Value!, path)));
                return list;
            case InlineTableSyntax inline:
                var table = new TomlTable(path, line) { Defined = true };
                Fill(table, inline.Items.Where(i => i.KeyValue is not null).Select(i => i.KeyValue!));
                return table;
            default:
                return new TomlScalar(value, written, line);
        }
    }

    private TomlTable? Twice(TomlTable table, string key, int line)
    {
        errors.Add(line, $"`{key}` is given twice in {table.Title}, first on line {table.KeyLines[key]}; one of the two was expected");
        return null;
    }
}
