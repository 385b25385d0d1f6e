namespace StrokeWatch.Samples.Blocks;

/// <summary>
/// A run of samples without a gap inside, one array an axis, in m/s²; its rate, place in time, the gap before it and its clipping travel with it.
/// </summary>
/// <remarks>A block is made once and filled again and again: nothing is allocated a sample.</remarks>
public sealed class SampleBlock
{
    private readonly double[][] axes;
    private readonly SampleMarks[] marks;
    private bool marked;
    private double[]? times;
    private double[]? supply;

    /// <summary>Makes an empty block for 1 to 64 channels and at least one sample.</summary>
    public SampleBlock(int channels, int capacity)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(channels, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(channels, 64);
        ArgumentOutOfRangeException.ThrowIfLessThan(capacity, 1);
        axes = new double[channels][];
        for (var i = 0; i < channels; i++)
        {
            axes[i] = new double[capacity];
        }

        marks = new SampleMarks[capacity];
        Capacity = capacity;
    }

    /// <summary>Gets the number of channels.</summary>
    public int Channels => axes.Length;

    /// <summary>Gets the most samples that the block can hold.</summary>
    public int Capacity { get; }

    /// <summary>Gets the number of samples held.</summary>
    public int Count { get; private set; }

    /// <summary>Gets or sets the rate in Hz as the source knows it; null where the source does not say.</summary>
    public double? RateHz { get; set; }

    /// <summary>Gets or sets the time of the first sample, in seconds from the first sample of the source, by the source's own clock.</summary>
    public double StartSeconds { get; set; }

    /// <summary>Gets or sets whether samples are lost between the block before and this one.</summary>
    public bool GapBefore { get; set; }

    /// <summary>Gets or sets how many samples were lost before this block, as far as known.</summary>
    public long MissingBefore { get; set; }

    /// <summary>Gets or sets the sensor's full scale in m/s², either sign; null where unknown.</summary>
    public double? FullScale { get; set; }

    /// <summary>Gets the samples of a channel, in m/s².</summary>
    public ReadOnlySpan<double> this[int channel] => axes[channel].AsSpan(0, Count);

    /// <summary>Gets the marks, one a sample.</summary>
    public ReadOnlySpan<SampleMarks> Marks => marks.AsSpan(0, Count);

    /// <summary>Gets or sets whether each sample carries a time of its own, which may differ from even spacing.</summary>
    public bool HasTimes { get; set; }

    /// <summary>Gets the time of each sample in seconds by the clock that stamped them, of which only differences count; NaN where one lacks its stamp, empty without <see cref="HasTimes"/>.</summary>
    public ReadOnlySpan<double> Times => HasTimes ? times.AsSpan(0, Count) : default;

    /// <summary>Gives the whole storage of the times to a filler that sets <see cref="HasTimes"/>; it is made when it is first asked for.</summary>
    public Span<double> FillTimes() => times ??= new double[Capacity];

    /// <summary>Gets or sets whether the supply's voltage was taken with the samples.</summary>
    public bool HasSupply { get; set; }

    /// <summary>Gets the supply's voltage at each sample, in the unit of its own channel; NaN where one lacks it, empty without <see cref="HasSupply"/>.</summary>
    public ReadOnlySpan<double> Supply => HasSupply ? supply.AsSpan(0, Count) : default;

    /// <summary>Gives the whole storage of the supply's voltage to a filler that sets <see cref="HasSupply"/>; it is made when it is first asked for.</summary>
    public Span<double> FillSupply() => supply ??= new double[Capacity];

    /// <summary>Gives the whole storage of a channel to its filler; <see cref="SetCount"/> says afterwards how much of it counts.</summary>
    public Span<double> Fill(int channel) => axes[channel];

    /// <summary>Gives the whole storage of the marks to their filler; a filler that knows nothing of clipping leaves them zero.</summary>
    public Span<SampleMarks> FillMarks()
    {
        marked = true;
        return marks;
    }

    /// <summary>Says how many samples the filler has set.</summary>
    public void SetCount(int count)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, Capacity);
        Count = count;
    }

    /// <summary>Empties the block: no samples, no marks, no times, no supply, no gap.</summary>
    public void Clear()
    {
        Count = 0;
        GapBefore = false;
        HasTimes = false;
        HasSupply = false;
        MissingBefore = 0;
        if (marked)
        {
            Array.Clear(marks);
            marked = false;
        }
    }
}
