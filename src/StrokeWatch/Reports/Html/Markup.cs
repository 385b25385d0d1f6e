using System.Text;

namespace StrokeWatch.Reports.Html;

/// <summary>Writes elements that are HTML and well-formed XML at once; every text and every attribute passes its one escape.</summary>
internal sealed class Markup
{
    private static readonly HashSet<string> Inline = ["a", "b", "bdi", "span", "i", "td", "th", "title", "text", "tspan"];

    private readonly StringBuilder text = new();
    private readonly Stack<string> open = new();

    /// <summary>Begins a document.</summary>
    public Markup() => text.Append("<!DOCTYPE html>\n");

    /// <summary>Opens an element.</summary>
    public Markup Open(string element, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Start(element, attributes);
        text.Append('>');
        open.Push(element);
        return this;
    }

    /// <summary>Closes the element opened last.</summary>
    public Markup Close()
    {
        var element = open.Pop();
        text.Append("</").Append(element).Append('>');
        return Break(element);
    }

    /// <summary>Writes an element with nothing in it.</summary>
    public Markup Empty(string element, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Start(element, attributes);
        text.Append(" />");
        return Break(element);
    }

    /// <summary>Writes an element that holds only text.</summary>
    public Markup Leaf(string element, string content, params ReadOnlySpan<(string Name, string Value)> attributes) =>
        Open(element, attributes).Text(content).Close();

    /// <summary>Writes text.</summary>
    public Markup Text(string content)
    {
        Escape(content);
        return this;
    }

    /// <summary>Writes the page's own style sheet, which is no one's input and holds none of the characters that would need an escape.</summary>
    public Markup Style(string sheet)
    {
        text.Append("<style>").Append(sheet).Append("</style>\n");
        return this;
    }

    /// <summary>Gives the document.</summary>
    public override string ToString() => open.Count == 0
        ? text.ToString()
        : throw new InvalidOperationException($"The element {open.Peek()} is still open.");

    private void Start(string element, ReadOnlySpan<(string Name, string Value)> attributes)
    {
        text.Append('<').Append(element);
        foreach (var (name, value) in attributes)
        {
            text.Append(' ').Append(name).Append("=\"");
            Escape(value);
            text.Append('"');
        }
    }

    private Markup Break(string element)
    {
        if (!Inline.Contains(element))
        {
            text.Append('\n');
        }

        return this;
    }

    /// <summary>Escapes what markup means something by, and replaces what no document may hold (controls, halves of surrogate pairs) and what would turn the reading direction of the text around it.</summary>
    private void Escape(string content)
    {
        foreach (var rune in content.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => text.Append("&amp;"),
                '<' => text.Append("&lt;"),
                '>' => text.Append("&gt;"),
                '"' => text.Append("&quot;"),
                '\'' => text.Append("&#39;"),
                '\t' or '\n' => text.Append(rune.ToString()),
                < 0x20 or (>= 0x7F and < 0xA0) or (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069) or 0xFFFE or 0xFFFF => text.Append('\uFFFD'),
                _ => text.Append(rune.ToString()),
            };
        }
    }
}
