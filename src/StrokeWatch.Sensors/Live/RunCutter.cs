using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Live;

/// <summary>The run that is being given out: it is cut into blocks of whatever size the reader brings.</summary>
internal sealed class RunCutter
{
    private int given;
    private int count;

    /// <summary>Gets the run.</summary>
    public SampleRun Run { get; } = new();

    /// <summary>Gets whether all of it was given out.</summary>
    public bool IsEmpty => given == count;

    /// <summary>Begins to give out the run.</summary>
    public void Begin()
    {
        given = 0;
        count = Run.Count;
    }

    /// <summary>Fills a block with as much as it holds; the gap goes with the first part.</summary>
    public int Fill(SampleBlock block, TimeAxis axis, SensorCheck check)
    {
        var part = Math.Min(count - given, block.Capacity);
        var channels = check.Channels;
        for (var i = 0; i < channels.Length; i++)
        {
            Run[channels[i]].Slice(given, part).CopyTo(block.Fill(i));
        }

        Run.Marks.Slice(given, part).CopyTo(block.FillMarks());
        if (Run.HasSupply)
        {
            Run.Supply.Slice(given, part).CopyTo(block.FillSupply());
            block.HasSupply = true;
        }

        block.SetCount(part);
        block.RateHz = check.RateHz;
        block.FullScale = check.Info.FullScale;
        block.StartSeconds = axis.Next;
        block.GapBefore = given == 0 && Run.GapBefore;
        block.MissingBefore = block.GapBefore ? Run.MissingBefore ?? 0 : 0;
        axis.Advance(part);
        given += part;
        return part;
    }
}
