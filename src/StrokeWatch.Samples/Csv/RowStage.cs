namespace StrokeWatch.Samples.Csv;

/// <summary>Rows read and not yet handed on, so that a row can be judged by those after it.</summary>
internal sealed class RowStage
{
    /// <summary>Makes an empty stage.</summary>
    public RowStage(int channels, int capacity)
    {
        Time = new double[capacity];
        RejectedBefore = new int[capacity];
        Verdict = new RowVerdict[capacity];
        Missing = new long[capacity];
        Values = new double[channels][];
        for (var i = 0; i < channels; i++)
        {
            Values[i] = new double[capacity];
        }
    }

    /// <summary>Gets the rows it can hold.</summary>
    public int Capacity => Time.Length;

    /// <summary>Gets or sets the rows it holds.</summary>
    public int Count { get; set; }

    /// <summary>Gets or sets how many of them are judged.</summary>
    public int Judged { get; set; }

    /// <summary>Gets or sets how many of those are handed on.</summary>
    public int Done { get; set; }

    /// <summary>Gets the times in seconds from the first row; NaN where a cell is empty.</summary>
    public double[] Time { get; }

    /// <summary>Gets how many rows were rejected just before each row.</summary>
    public int[] RejectedBefore { get; }

    /// <summary>Gets the verdicts.</summary>
    public RowVerdict[] Verdict { get; }

    /// <summary>Gets how many rows are missing before each row.</summary>
    public long[] Missing { get; }

    /// <summary>Gets the values in m/s², one array a channel; the supply's voltage last, where it is there.</summary>
    public double[][] Values { get; }

    /// <summary>Moves what is not handed on to the front.</summary>
    public void Compact()
    {
        var kept = Count - Done;
        Move(Time, kept);
        Move(RejectedBefore, kept);
        Move(Verdict, kept);
        Move(Missing, kept);
        foreach (var channel in Values)
        {
            Move(channel, kept);
        }

        Judged -= Done;
        Count = kept;
        Done = 0;
    }

    private void Move<T>(T[] array, int kept) => array.AsSpan(Done, kept).CopyTo(array);
}
