using System.Numerics;
using System.Runtime.InteropServices;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>Marks samples that stand at the sensor's rail.</summary>
internal static class Clipping
{
    /// <summary>A sample this near the full scale is at the rail: sensors saturate a little early.</summary>
    private const double Rail = 0.999;

    /// <summary>Marks the samples of a block from one place on whose size on any axis reaches the block's full scale.</summary>
    /// <param name="block">The block.</param>
    /// <param name="at">The first place.</param>
    /// <param name="count">How many.</param>
    /// <param name="largest">What no sample's size exceeds, where that is known; NaN where not.</param>
    public static void Mark(SampleBlock block, int at, int count, double largest = double.NaN)
    {
        if (block.FullScale is not { } fullScale || largest < Rail * fullScale)
        {
            return;
        }

        var rail = Rail * fullScale;
        for (var channel = 0; channel < block.Channels; channel++)
        {
            var values = block.Fill(channel).Slice(at, count);
            if (!Reaches(values, rail))
            {
                continue;
            }

            var marks = block.FillMarks().Slice(at, count);
            for (var i = 0; i < values.Length; i++)
            {
                if (Math.Abs(values[i]) >= rail)
                {
                    marks[i] |= SampleMarks.Clipped;
                }
            }
        }
    }

    /// <summary>Says whether any value's size reaches the rail: of a sensor that does not clip, four values are looked at at once.</summary>
    private static bool Reaches(ReadOnlySpan<double> values, double rail)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        var limit = new Vector<double>(rail);
        Vector<double> a = default, b = default;
        var i = 0;
        for (; i + 1 < wide.Length; i += 2)
        {
            (a, b) = (Vector.MaxNative(Vector.Abs(wide[i]), a), Vector.MaxNative(Vector.Abs(wide[i + 1]), b));
        }

        var found = Vector.GreaterThanOrEqualAny(Vector.MaxNative(a, b), limit);
        for (var n = i * Vector<double>.Count; n < values.Length && !found; n++)
        {
            found = Math.Abs(values[n]) >= rail;
        }

        return found;
    }
}
