using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Captures;

/// <summary>A whole capture thinned to smallest and largest of each column, in one pass and in bounded memory: where columns become too many, two become one.</summary>
internal sealed class CaptureLook
{
    private const int BlockSamples = 8192;

    private readonly int most;
    private readonly List<float>[] least;
    private readonly List<float>[] largest;
    private long inColumn;

    private CaptureLook(SourceInfo info, int points)
    {
        (Info, most) = (info, 2 * points);
        least = [.. info.Axes.Select(_ => new List<float>(most))];
        largest = [.. info.Axes.Select(_ => new List<float>(most))];
    }

    /// <summary>Gets what the capture says of itself.</summary>
    public SourceInfo Info { get; }

    /// <summary>Gets how many samples there are.</summary>
    public long Samples { get; private set; }

    /// <summary>Gets how many samples a column holds.</summary>
    public long PerColumn { get; private set; } = 1;

    /// <summary>Gets the smallest of each column in m/s², a list a channel.</summary>
    public IReadOnlyList<IReadOnlyList<float>> Least => least;

    /// <summary>Gets the largest of each column in m/s², a list a channel.</summary>
    public IReadOnlyList<IReadOnlyList<float>> Largest => largest;

    /// <summary>Reads a source to its end; gives between so many columns and twice as many, where there are as many samples.</summary>
    public static CaptureLook Of(ISampleSource source, int points)
    {
        var look = new CaptureLook(source.Info, points);
        var block = new SampleBlock(source.Info.Axes.Count, BlockSamples);
        for (var state = source.Read(block); state != SourceState.End; state = source.Read(block))
        {
            if (state == SourceState.Samples)
            {
                look.Add(block);
            }
        }

        return look;
    }

    private void Add(SampleBlock block)
    {
        for (var from = 0; from < block.Count;)
        {
            if (inColumn == 0)
            {
                Begin(block, from);
            }

            var part = (int)Math.Min(block.Count - from, PerColumn - inColumn);
            for (var channel = 0; channel < least.Length; channel++)
            {
                var samples = block[channel].Slice(from, part);
                foreach (var sample in samples)
                {
                    least[channel][^1] = Math.Min(least[channel][^1], (float)sample);
                    largest[channel][^1] = Math.Max(largest[channel][^1], (float)sample);
                }
            }

            inColumn = (inColumn + part) % PerColumn;
            from += part;
            Samples += part;
        }
    }

    private void Begin(SampleBlock block, int at)
    {
        if (least[0].Count == most)
        {
            Halve(least, Math.Min);
            Halve(largest, Math.Max);
            PerColumn *= 2;
        }

        for (var channel = 0; channel < least.Length; channel++)
        {
            least[channel].Add((float)block[channel][at]);
            largest[channel].Add((float)block[channel][at]);
        }
    }

    private static void Halve(List<float>[] columns, Func<float, float, float> join)
    {
        foreach (var list in columns)
        {
            for (var i = 0; i < list.Count / 2; i++)
            {
                list[i] = join(list[2 * i], list[2 * i + 1]);
            }

            list.RemoveRange(list.Count / 2, list.Count - list.Count / 2);
        }
    }
}
