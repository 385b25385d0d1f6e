namespace StrokeWatch.Configuration.Toml;

/// <summary>Finds a bracket or a long text that is still open at a line.</summary>
internal static class OpenBrackets
{
    /// <summary>Gives the line (from 0) of the outermost bracket or triple quote still open where a line begins; -1 where nothing is.</summary>
    public static int FirstOpen(IReadOnlyList<string> lines, int before)
    {
        var open = new Stack<int>();
        string? quote = null;
        var quoteLine = -1;
        for (var i = 0; i < before; i++)
        {
            var line = lines[i];
            for (var c = 0; c < line.Length; c++)
            {
                var rest = line.AsSpan(c);
                if (quote is not null)
                {
                    if (quote[0] == '"' && line[c] == '\\')
                    {
                        c++;
                    }
                    else if (rest.StartsWith(quote, StringComparison.Ordinal))
                    {
                        c += quote.Length - 1;
                        quote = null;
                    }
                }
                else if (line[c] == '#')
                {
                    break;
                }
                else if (line[c] is '"' or '\'')
                {
                    var triple = new string(line[c], 3);
                    quote = rest.StartsWith(triple, StringComparison.Ordinal) ? triple : triple[..1];
                    quoteLine = i;
                    c += quote.Length - 1;
                }
                else if (line[c] is '[' or '{')
                {
                    open.Push(i);
                }
                else if (line[c] is ']' or '}' && open.Count > 0)
                {
                    open.Pop();
                }
            }

            if (quote is { Length: 1 })
            {
                quote = null;
            }
        }

        var bracket = open.Count > 0 ? open.Last() : -1;
        return bracket >= 0 ? bracket : quote is null ? -1 : quoteLine;
    }
}
