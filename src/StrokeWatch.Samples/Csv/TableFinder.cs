namespace StrokeWatch.Samples.Csv;

/// <summary>Finds where the table begins: the first run of like rows long enough to be no accident, or the longest run where none is.</summary>
internal sealed class TableFinder
{
    /// <summary>A run of like rows of numbers alone is believed from here.</summary>
    private const int PureRows = 3;

    /// <summary>A single column of numbers could be a list of settings: it is believed later.</summary>
    private const int SingleColumnRows = 8;

    /// <summary>Rows with text among the numbers could be settings with their names: they are believed later still.</summary>
    private const int MixedRows = 32;

    /// <summary>A run goes on over so many lines of another kind: an error sentence, a cut row.</summary>
    private const int Interruption = 3;

    private Run current;
    private Run before;
    private Run best;
    private long lines;

    /// <summary>Gets the shape of the table's rows.</summary>
    public LineShape Shape => best.Shape;

    /// <summary>Gets the number of its first line, from 1; 0 where nothing in the file looks like a table.</summary>
    public long FirstLine => best.Rows == 0 || (lines > 6 && best.Rows < 2) || (best.Shape.IsMixed && best.Rows < 3) ? 0 : best.First;

    /// <summary>Looks at a line that is neither blank nor a comment; true once the table is certain.</summary>
    public bool Feed(ReadOnlySpan<byte> line, long number)
    {
        lines++;
        var shape = ShapeIn(line);
        if (shape.Numeric == 0)
        {
            // A line of words as wide as the run may be the header of another table.
            if (shape.Cells == current.Shape.Cells && shape.Separator == current.Shape.Separator && shape.Cells > 1)
            {
                (current, before) = (default, default);
            }

            return false;
        }

        if (current.TakesIn(shape, number))
        {
            current = current with { Rows = current.Rows + 1, Last = number };
        }
        else if (before.TakesIn(shape, number))
        {
            (current, before) = (before with { Rows = before.Rows + 1, Last = number }, current);
        }
        else
        {
            (before, current) = (current, new(shape, number, 1, number));
        }

        if (current.Rows > best.Rows)
        {
            best = current;
        }

        return current.Rows >= (current.Shape.IsMixed ? MixedRows : current.Shape.Cells == 1 ? SingleColumnRows : PureRows);
    }

    /// <summary>Reads a line with the separator of the run where that fits: a line alone can often be read either way.</summary>
    private LineShape ShapeIn(ReadOnlySpan<byte> line)
    {
        if (current.Rows > 0)
        {
            var shape = LineShape.With(line, current.Shape.Separator);
            if (current.IsLike(shape))
            {
                return shape;
            }
        }

        return LineShape.Of(line);
    }

    private readonly record struct Run(LineShape Shape, long First, long Rows, long Last)
    {
        public bool TakesIn(LineShape next, long number) => Rows > 0 && number - Last <= Interruption + 1 && IsLike(next);

        public bool IsLike(LineShape next) => next.Separator == Shape.Separator && next.Cells == Shape.Cells
            && (Shape.IsPure ? next.IsPure : next.IsMixed && next.Numeric == Shape.Numeric);
    }
}
