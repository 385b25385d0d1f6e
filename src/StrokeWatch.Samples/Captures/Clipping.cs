using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>Marks samples that stand at the sensor's rail.</summary>
internal static class Clipping
{
    /// <summary>A sample this near the full scale is at the rail: sensors saturate a little early.</summary>
    private const double Rail = 0.999;

    /// <summary>Marks the samples of a block from one place on whose size on any axis reaches the block's full scale.</summary>
    public static void Mark(SampleBlock block, int at, int count)
    {
        if (block.FullScale is not { } fullScale)
        {
            return;
        }

        var marks = block.FillMarks().Slice(at, count);
        var rail = Rail * fullScale;
        for (var channel = 0; channel < block.Channels; channel++)
        {
            var values = block.Fill(channel).Slice(at, count);
            for (var i = 0; i < values.Length; i++)
            {
                if (Math.Abs(values[i]) >= rail)
                {
                    marks[i] |= SampleMarks.Clipped;
                }
            }
        }
    }
}
