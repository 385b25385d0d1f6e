using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>Reads a text capture as far as needed to know its table.</summary>
internal static class CsvTableReader
{
    /// <summary>The header is looked for in so many lines before the table.</summary>
    private const int KeptLines = 64;

    /// <summary>A table that has not begun by then does not begin at all.</summary>
    private const long MostLines = 2_000_000;

    /// <summary>Finds the table; where there is none, one line says so.</summary>
    public static CsvTable Find(CaptureBytes bytes, TextKind kind, int skipLines)
    {
        var finder = new TableFinder();
        var (comments, lines) = Scan(bytes, kind, skipLines, finder);
        if (finder.FirstLine == 0)
        {
            throw bytes.Error(
                lines == 0 && comments == 0 ? "holds no lines of text; record it again"
                : lines <= 4 ? "has a header but no row of numbers; record it again, or check --skip-rows"
                : "has no columns of numbers; give a CSV, TSV or WAV capture, or check --skip-rows");
        }

        return Read(bytes, kind, finder);
    }

    /// <summary>Says whether a line is blank or a comment.</summary>
    public static bool IsAside(ReadOnlySpan<byte> line)
    {
        if (line.Length > 1 && line[0] > (byte)'%')
        {
            return false;
        }

        var first = line.IndexOfAnyExcept((byte)' ', (byte)'\t');
        return first < 0 || line[first] is (byte)'#' or (byte)'%' || line[first..] is [26];
    }

    private static (long Comments, long Lines) Scan(CaptureBytes bytes, TextKind kind, int skipLines, TableFinder finder)
    {
        long comments = 0, rows = 0;
        using var lines = kind.Lines(bytes);
        while (lines.Number < MostLines && lines.TryNext(out var line))
        {
            if (lines.Overlong || lines.Number <= skipLines)
            {
                continue;
            }

            if (IsAside(line))
            {
                comments += line.IsEmpty ? 0 : 1;
                continue;
            }

            rows++;
            if (finder.Feed(line, lines.Number))
            {
                break;
            }
        }

        return (comments, rows);
    }

    private static CsvTable Read(CaptureBytes bytes, TextKind kind, TableFinder finder)
    {
        var hints = new PreambleHints();
        var sample = new TableSample();
        var kept = new Queue<string>();
        var separator = finder.Shape.Separator;
        using var lines = kind.Lines(bytes);
        while (sample.Rows < TableSample.MostRows && lines.TryNext(out var line))
        {
            if (lines.Number >= finder.FirstLine)
            {
                if (!IsAside(line) && !lines.Overlong)
                {
                    sample.Add(line, separator);
                }
            }
            else if (line.IndexOfAnyExcept((byte)' ', (byte)'\t') >= 0)
            {
                var text = TextKind.Decode(line);
                hints.Feed(text);
                kept.Enqueue(text);
                if (kept.Count > KeptLines)
                {
                    kept.Dequeue();
                }
            }
        }

        var before = kept.Select(text => HeaderRows.Cut(text, separator, finder.Shape.Cells)).ToList();
        return new CsvTable
        {
            Separator = separator,
            Columns = finder.Shape.Cells,
            HasText = finder.Shape.IsMixed,
            FirstLine = finder.FirstLine,
            Before = before,
            Sample = sample,
            Hints = hints,
        };
    }
}
