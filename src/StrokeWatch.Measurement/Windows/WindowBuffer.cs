using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Windows;

/// <summary>The samples not measured yet: one array an axis, filled at the end and used up from the front, with the time of each.</summary>
internal sealed class WindowBuffer
{
    private readonly SampleMarks[] marks;
    private double[]? times;
    private double[]? supply;
    private double anchorSeconds;
    private int anchorIndex;
    private int first;
    private int end;

    /// <summary>Makes a buffer for a number of axes and samples.</summary>
    public WindowBuffer(int axes, int capacity)
        : this([.. Enumerable.Range(0, axes).Select(_ => new double[capacity])])
    {
    }

    private WindowBuffer(double[][] storage) => (Axes, marks) = (storage, new SampleMarks[storage[0].Length]);

    /// <summary>Gets the storage, one array an axis; valid from <see cref="First"/> for <see cref="Count"/> samples.</summary>
    public double[][] Axes { get; }

    /// <summary>Gets where the samples start.</summary>
    public int First => first;

    /// <summary>Gets how many samples there are.</summary>
    public int Count => end - first;

    /// <summary>Gives the marks of the first samples.</summary>
    public ReadOnlySpan<SampleMarks> Marks(int count) => marks.AsSpan(first, count);

    /// <summary>Gives the stamps of the first samples in seconds, of which only differences count; NaN where a sample has none, empty where none ever had one.</summary>
    public ReadOnlySpan<double> Times(int count) => times is null ? default : times.AsSpan(first, count);

    /// <summary>Gives the supply's voltage at the first samples, in its channel's unit; NaN where a sample has none, empty where none ever had one.</summary>
    public ReadOnlySpan<double> Supply(int count) => supply is null ? default : supply.AsSpan(first, count);

    /// <summary>Gives the time in seconds of a sample counted from <see cref="First"/>.</summary>
    public double SecondsAt(int sample, double rateHz) => anchorSeconds + (first + sample - anchorIndex) / rateHz;

    /// <summary>Takes samples of a block from an offset on, at most so many and as many as there is room for, and says how many.</summary>
    public int Append(SampleBlock block, int offset, int most, double rateHz)
    {
        // As soon as little is left to move: a buffer that stays at its front stays in the processor's cache, beside those of other sensors.
        if (first > 0 && Count <= first)
        {
            Compact();
        }

        var taken = Math.Min(Math.Min(Axes[0].Length - end, most), block.Count - offset);
        for (var a = 0; a < Axes.Length; a++)
        {
            block[a].Slice(offset, taken).CopyTo(Axes[a].AsSpan(end));
        }

        block.Marks.Slice(offset, taken).CopyTo(marks.AsSpan(end));
        AppendBeside(ref times, block.Times, block.HasTimes, offset, taken);
        AppendBeside(ref supply, block.Supply, block.HasSupply, offset, taken);
        (anchorSeconds, anchorIndex) = (block.StartSeconds + offset / rateHz, end);
        end += taken;
        return taken;
    }

    /// <summary>Gives some neighbouring axes as a buffer of their own on the same samples; it shows what is there after each <see cref="Show"/>.</summary>
    public WindowBuffer Part(int firstAxis, int axes) => new(Axes[firstAxis..(firstAxis + axes)]);

    /// <summary>Makes a part show the first samples of its whole, and of the marks only those that a mask picks.</summary>
    public void Show(WindowBuffer whole, int count, SampleMarks mask)
    {
        (first, end, anchorIndex, anchorSeconds) = (whole.first, whole.end, whole.anchorIndex, whole.anchorSeconds);
        var from = whole.Marks(count);
        var to = marks.AsSpan(first, count);
        to.Clear();
        for (var n = from.IndexOfAnyExcept(SampleMarks.None); n >= 0 && n < count; n++)
        {
            to[n] = from[n] & mask;
        }
    }

    /// <summary>Uses up samples from the front.</summary>
    public void Discard(int count) => first += Math.Min(count, Count);

    /// <summary>Takes what comes beside the samples, where it comes at all; the storage is made when the first of it comes.</summary>
    private void AppendBeside(ref double[]? storage, ReadOnlySpan<double> values, bool there, int offset, int taken)
    {
        if (there)
        {
            storage ??= Enumerable.Repeat(double.NaN, Axes[0].Length).ToArray();
            values.Slice(offset, taken).CopyTo(storage.AsSpan(end));
        }
        else
        {
            storage?.AsSpan(end, taken).Fill(double.NaN);
        }
    }

    private void Compact()
    {
        foreach (var axis in Axes)
        {
            Array.Copy(axis, first, axis, 0, Count);
        }

        Array.Copy(marks, first, marks, 0, Count);
        if (times is not null)
        {
            Array.Copy(times, first, times, 0, Count);
        }

        if (supply is not null)
        {
            Array.Copy(supply, first, supply, 0, Count);
        }

        (anchorIndex, end, first) = (anchorIndex - first, Count, 0);
    }
}
