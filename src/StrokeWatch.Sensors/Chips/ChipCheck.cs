using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Opens a chip as the daemon would, and counts its samples for some seconds.</summary>
public static class ChipCheck
{
    /// <summary>Checks a chip on its bus; it takes the seconds given and about half a second more.</summary>
    public static ChipFindings Run(ChipSettings settings, TimeProvider time, double seconds)
    {
        var told = new List<string>();
        return Run(new ChipOpener(settings, () => ChipDevices.Connect(settings), time, told.Add), told, settings, time, seconds);
    }

    /// <summary>Checks a chip through an opener; what that tells is in the list.</summary>
    internal static ChipFindings Run(ChipOpener opener, IReadOnlyList<string> told, ChipSettings settings, TimeProvider time, double seconds)
    {
        var once = new Once(opener);
        SensorEvent last = default;
        using var source = LiveSensors.Make(new() { Protocol = settings.Model.Kind }, once, time, happened => last = happened);
        var block = new SampleBlock(3, 512);
        var begun = time.GetTimestamp();
        long first = 0, end = 0, counted = 0;
        var sums = new double[6];
        while (time.GetElapsedTime(begun).TotalSeconds < seconds + 2)
        {
            var state = source.Read(block);
            if (state == SourceState.Lost || once.Refused)
            {
                return new() { Trouble = last.Words, Told = told, Start = opener.Shown };
            }

            if (state != SourceState.Samples)
            {
                continue;
            }

            (counted, first, end) = first == 0 ? (0, time.GetTimestamp(), 0) : (counted + block.Count, first, time.GetTimestamp());
            Add(block, sums);
            if (end != 0 && time.GetElapsedTime(first, end).TotalSeconds >= seconds)
            {
                break;
            }
        }

        var span = end == 0 ? 0 : time.GetElapsedTime(first, end).TotalSeconds;
        return new()
        {
            Trouble = counted == 0 ? "no samples came: check supply and wiring" : null,
            Told = told,
            Start = opener.Shown,
            Temperature = once.Chip?.Temperature,
            Seconds = span,
            RateHz = span > 0 ? counted / span : null,
            RateError = span > 0 ? 2 * settings.Model.FifoSamples / settings.Rate.Hz / BusBudget.DrainsAFifo / span : 0,
            SpreadG = counted == 0 ? [] : [.. Enumerable.Range(0, 3).Select(axis => Spread(sums[axis], sums[axis + 3], source.Counters.Samples))],
            Gaps = source.Counters.Gaps,
        };
    }

    private static void Add(SampleBlock block, double[] sums)
    {
        for (var axis = 0; axis < 3; axis++)
        {
            foreach (var value in block[axis])
            {
                var g = value / Gravity.Standard;
                sums[axis] += g;
                sums[axis + 3] += g * g;
            }
        }
    }

    private static double Spread(double sum, double squares, long count) => Math.Sqrt(Math.Max(0, (squares / count) - (sum / count * (sum / count))));

    /// <summary>Opens once: a check does not try again.</summary>
    private sealed class Once(ChipOpener opener) : IByteSourceOpener
    {
        public string Name => opener.Name;

        public ChipSource? Chip { get; private set; }

        public bool Refused { get; private set; }

        public OpenResult Open()
        {
            var opened = opener.Open();
            Chip = opened.Source as ChipSource;
            Refused = Chip is null;
            return opened;
        }
    }
}
