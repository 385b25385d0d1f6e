using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Waves;

/// <summary>The last samples of a device as read, without a gap.</summary>
/// <param name="Info">What the device says of itself.</param>
/// <param name="RateHz">The rate.</param>
/// <param name="Samples">The samples in m/s², one array a channel.</param>
/// <param name="Marks">Their marks.</param>
internal sealed record SampleSnapshot(SourceInfo Info, double RateHz, double[][] Samples, SampleMarks[] Marks)
{
    /// <summary>Gives it as a block that a chain would take.</summary>
    public SampleBlock Block()
    {
        var block = new SampleBlock(Samples.Length, Math.Max(1, Marks.Length)) { RateHz = RateHz };
        for (var channel = 0; channel < Samples.Length; channel++)
        {
            Samples[channel].CopyTo(block.Fill(channel));
        }

        Marks.CopyTo(block.FillMarks());
        block.SetCount(Marks.Length);
        return block;
    }
}
