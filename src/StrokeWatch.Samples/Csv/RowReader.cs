using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>Reads the rows of a table into a stage and counts what it rejects.</summary>
internal sealed class RowReader : IDisposable
{
    /// <summary>So many rows show how short a whole row can be.</summary>
    private const int RowsToKnowLength = 16;

    private readonly ByteLines lines;
    private readonly RowParser parser;
    private readonly long firstLine;
    private readonly TimeColumn time;
    private readonly PlainRows? plain;
    private readonly long[] rejected = new long[Enum.GetValues<RowOutcome>().Length];
    private int rejectedBefore;
    private int shortest = int.MaxValue;
    private long rows;

    /// <summary>Makes a reader at the first row; where the values are not wanted, they are judged as ever and not kept.</summary>
    public RowReader(CaptureBytes bytes, TextKind kind, CsvTable table, ColumnPlan plan, bool valuesWanted = true, bool watchPlaces = false)
    {
        lines = kind.Lines(bytes);
        parser = new RowParser(table.Separator, plan);
        firstLine = table.FirstLine;
        time = new TimeColumn(TimeUnits.Seconds(plan.TimeUnit)) { WatchPlaces = watchPlaces };
        plain = PlainRows.Of(table.Separator, plan, time, valuesWanted);
    }

    /// <summary>Gets whether the file has been read to its end.</summary>
    public bool Ended { get; private set; }

    /// <summary>Gets the smallest place of ten in which a time of the rows so far differs from zero; null where none does, or where places are not watched.</summary>
    public int? LastPlace => time.LastPlace;

    /// <summary>Takes the count of rows rejected for a reason since it was last taken.</summary>
    public long TakeRejected(RowOutcome reason)
    {
        var count = rejected[(int)reason];
        rejected[(int)reason] = 0;
        return count;
    }

    /// <summary>Fills the stage up.</summary>
    public void Fill(RowStage stage)
    {
        for (FillPlain(stage); stage.Count < stage.Capacity; FillPlain(stage))
        {
            if (!lines.TryNext(out var line))
            {
                Ended = true;
                return;
            }

            if (lines.Number < firstLine || (!lines.Overlong && CsvTableReader.IsAside(line)))
            {
                continue;
            }

            var outcome = Check(line, lines.Overlong ? RowOutcome.ErrorText : parser.Read(line));
            if (outcome == RowOutcome.Read)
            {
                Store(stage);
                continue;
            }

            rejected[(int)outcome]++;
            rejectedBefore++;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => lines.Dispose();

    /// <summary>Reads the rows up to the next that must be looked at byte by byte.</summary>
    private void FillPlain(RowStage stage)
    {
        if (plain is null || lines.Number + 1 < firstLine)
        {
            return;
        }

        var from = stage.Count;
        var (count, shortestOfThem) = plain.Read(lines, stage);
        if (count > 0)
        {
            stage.RejectedBefore.AsSpan(from, count).Clear();
            (stage.RejectedBefore[from], rejectedBefore) = (rejectedBefore, 0);
            rows += count;
            shortest = Math.Min(shortest, shortestOfThem);
        }
    }

    private RowOutcome Check(ReadOnlySpan<byte> line, RowOutcome outcome)
    {
        if (!lines.Terminated && outcome is not (RowOutcome.NanOrInfinite or RowOutcome.ErrorText or RowOutcome.TooManyColumns))
        {
            // A last line without its end that is shorter than every row before has lost digits, if not cells.
            return outcome != RowOutcome.Read || (rows >= RowsToKnowLength && line.Length < shortest) ? RowOutcome.Truncated : outcome;
        }

        shortest = outcome == RowOutcome.Read ? Math.Min(shortest, line.Length) : shortest;
        return outcome;
    }

    private void Store(RowStage stage)
    {
        var row = stage.Count++;
        stage.Time[row] = parser.Time is { } moment ? time.Seconds(moment) : double.NaN;
        stage.RejectedBefore[row] = rejectedBefore;
        rejectedBefore = 0;
        rows++;
        var values = parser.Values;
        for (var i = 0; i < values.Length; i++)
        {
            stage.Values[i][row] = values[i];
        }
    }
}
