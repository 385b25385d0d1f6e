namespace StrokeWatch.Samples.Csv;

/// <summary>The first rows of a table, to see what its columns hold.</summary>
internal sealed class TableSample
{
    /// <summary>So many rows are looked at.</summary>
    public const int MostRows = 512;

    private readonly List<Column> columns = [];

    /// <summary>Gets the rows seen.</summary>
    public int Rows { get; private set; }

    /// <summary>Gets the columns seen.</summary>
    public int Columns => columns.Count;

    /// <summary>Takes a row.</summary>
    public void Add(ReadOnlySpan<byte> line, byte separator)
    {
        Rows++;
        var cells = new Cells(line, separator);
        for (var i = 0; i < 4096 && cells.MoveNext(); i++)
        {
            var kind = LineShape.KindOf(cells.Current, separator);
            while (i >= columns.Count)
            {
                columns.Add(new());
            }

            var column = columns[i];
            column.Counts[(int)kind]++;
            if (kind == CellKind.Timestamp)
            {
                TimestampText.TryRead(cells.Current, out var time);
                column.Values.Add(time);
            }
            else if (kind == CellKind.Number && NumberText.TryRead(cells.Current, separator != (byte)',', out var number, out _))
            {
                column.Values.Add(number);
            }
        }
    }

    /// <summary>Says whether a column holds mostly numbers.</summary>
    public bool IsNumeric(int column) => Count(column, CellKind.Number) > 0
        && Count(column, CellKind.Number) >= 2 * (Count(column, CellKind.Text) + Count(column, CellKind.Timestamp));

    /// <summary>Says whether a column holds any numbers.</summary>
    public bool HasNumbers(int column) => Count(column, CellKind.Number) > 0;

    /// <summary>Says whether a column holds mostly times of the clock.</summary>
    public bool IsTimestamp(int column) => Count(column, CellKind.Timestamp) > 2 * (Count(column, CellKind.Text) + Count(column, CellKind.Number));

    /// <summary>Gets the numbers or times of a column, in order.</summary>
    public IReadOnlyList<DecimalNumber> Values(int column) => column < columns.Count ? columns[column].Values : [];

    /// <summary>Says whether a column runs upwards in even steps, as time does, give or take its rounding.</summary>
    public bool RunsLikeTime(int column, out bool countsByOne)
    {
        countsByOne = false;
        var values = Values(column);
        if (values.Count < 3 || values.Count < 0.9 * Rows)
        {
            return false;
        }

        var steps = new double[values.Count - 1];
        for (var i = 0; i < steps.Length; i++)
        {
            steps[i] = values[i + 1].Minus(values[i]);
        }

        var mean = values[^1].Minus(values[0]) / steps.Length;
        var rounding = steps.Where(s => s > 0).DefaultIfEmpty().Min();
        var even = steps.Count(s => s >= 0 && Math.Abs(s - mean) <= Math.Max(0.5 * mean, rounding > 1.2 * mean ? rounding : 0));
        countsByOne = steps.Count(s => s == 1) >= 0.95 * steps.Length && values.All(v => v.LastPlace() is null or >= 0);
        return mean > 0 && even >= 0.9 * steps.Length;
    }

    private int Count(int column, CellKind kind) => column < columns.Count ? columns[column].Counts[(int)kind] : 0;

    private sealed class Column
    {
        public int[] Counts { get; } = new int[4];

        public List<DecimalNumber> Values { get; } = [];
    }
}
