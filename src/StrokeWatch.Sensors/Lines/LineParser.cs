using System.Buffers.Text;

namespace StrokeWatch.Sensors.Lines;

/// <summary>The reader of one text line: numbers between commas, semicolons, tabs or spaces, with a decimal point.</summary>
internal static class LineParser
{
    /// <summary>Reads a line without its end into as many numbers as <paramref name="numbers"/> has room for.</summary>
    public static LineKind Parse(ReadOnlySpan<byte> line, Span<double> numbers)
    {
        line = line.Trim(" \t\r\0"u8);
        if (line.IsEmpty || line[0] == '#')
        {
            return LineKind.Remark;
        }

        int columns = 0, names = 0, wrong = 0;
        while (true)
        {
            var cell = Cell(ref line, out var last);
            if (Utf8Parser.TryParse(cell, out double number, out var used) && used == cell.Length)
            {
                if (columns < numbers.Length)
                {
                    numbers[columns] = number;
                }
            }
            else if (!cell.IsEmpty && char.IsAsciiLetter((char)cell[0]) && !cell.ContainsAnyExceptInRange((byte)' ', (byte)'~'))
            {
                names++;
            }
            else
            {
                wrong++;
            }

            columns++;
            if (last)
            {
                break;
            }
        }

        if (columns != numbers.Length)
        {
            return LineKind.WrongColumns;
        }

        return names == columns ? LineKind.Header : names + wrong > 0 ? LineKind.WrongNumber : LineKind.Sample;
    }

    /// <summary>Cuts the next cell off; spaces and tabs around a comma or semicolon belong to it.</summary>
    private static ReadOnlySpan<byte> Cell(ref ReadOnlySpan<byte> line, out bool last)
    {
        var at = line.IndexOfAny(",; \t"u8);
        last = at < 0;
        if (last)
        {
            return line;
        }

        var cell = line[..at];
        var rest = line[at..];
        var marked = false;
        while (!rest.IsEmpty && (rest[0] is (byte)' ' or (byte)'\t' || (!marked && rest[0] is (byte)',' or (byte)';')))
        {
            marked |= rest[0] is (byte)',' or (byte)';';
            rest = rest[1..];
        }

        line = rest;
        return cell;
    }
}
