using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Wav;

/// <summary>Decides which channels of a WAV file are taken, for which sensors and axes, and which holds the supply's voltage.</summary>
internal static class WavChannels
{
    private const int Most = 64;

    /// <summary>Gives the channel from 0 of the supply's voltage: what the user says, or the file's own note; -1 where there is none.</summary>
    public static int Supply(CaptureBytes bytes, WavLayout layout, CaptureOptions options)
    {
        var channel = (options.SupplyChannel ?? layout.Notes.Supply ?? 0) - 1;
        return options.SupplyChannel is { } said && said > layout.Channels
            ? throw bytes.Error(FormattableString.Invariant($"has {layout.Channels} channels, counted from 1; --supply-channel says {said}, name one of them"))
            : channel < layout.Channels ? channel : -1;
    }

    /// <summary>Chooses channels (from 0) with their axes and, of several sensors, their places; guesses are added to the list.</summary>
    public static (int[] Channels, Axis[] Axes, SensorPlace[] Places) Choose(CaptureBytes bytes, WavLayout layout, CaptureOptions options, List<string> guesses)
    {
        var (noted, places) = Noted(layout);
        var supply = Supply(bytes, layout, options);
        if (supply >= 0 && layout.Channels == 1)
        {
            throw bytes.Error("has one channel, and that is the supply's voltage; capture the sensor's axes beside it");
        }

        if (options.Sensors.Count > 0)
        {
            return Several(bytes, layout, options, guesses);
        }

        SensorChoice.Single(options, bytes.Error);
        var chosen = options.Columns?.Where(c => c.Role != ColumnRole.Time).ToList() ?? [];
        if (chosen.Count == 0 && layout.Channels - (supply >= 0 ? 1 : 0) > 3)
        {
            var hold = places is null ? "" : $", of the sensors {string.Join(", ", places.Distinct().Select(SensorPlaces.Name))}";
            throw bytes.Error(FormattableString.Invariant(
                $"has {layout.Channels} channels{hold}; list the sensors in the feeder file with [[sensors]] and their channels, or choose up to three with --columns, as in --columns x=1,z=3"));
        }

        var (channels, axes) = OfOne(bytes, layout, noted, chosen, guesses, supply);
        return (channels, axes, []);
    }

    private static (int[] Channels, Axis[] Axes, SensorPlace[] Places) Several(CaptureBytes bytes, WavLayout layout, CaptureOptions options, List<string> guesses)
    {
        if (layout.Channels > Most)
        {
            throw bytes.Error(FormattableString.Invariant($"has {layout.Channels} channels; at most {Most} can be read: write fewer into the file"));
        }

        var (noted, places) = Noted(layout);
        var channels = new List<int>();
        var axes = new List<Axis>();
        var owners = new List<SensorPlace>();
        foreach (var sensor in SensorChoice.Of(options, bytes.Error))
        {
            var columns = sensor.Columns;
            if (columns.Count == 0)
            {
                columns = [.. Enumerable.Range(0, places?.Count ?? 0).Where(i => places![i] == sensor.Place).Select(i => new ColumnChoice(ColumnRole.Unsaid, i + 1, null))];
            }

            if (columns.Count == 0)
            {
                var name = SensorPlaces.Name(sensor.Place);
                throw bytes.Error(FormattableString.Invariant(
                    $"does not say which of its {layout.Channels} channels are of the sensor {name} that the feeder file lists; say so with channels = [1, 2, 3] in [[sensors]], or --columns {name}.x=1"));
            }

            var (own, along) = OfOne(bytes, layout, noted, columns, guesses, Supply(bytes, layout, options));
            channels.AddRange(own);
            axes.AddRange(along);
            owners.AddRange(own.Select(_ => sensor.Place));
        }

        return channels.GroupBy(c => c).FirstOrDefault(g => g.Count() > 1) is { Key: var twice }
            ? throw bytes.Error(FormattableString.Invariant($"channel {twice + 1} is taken for two sensors; name each channel once in [[sensors]]"))
            : ([.. channels], [.. axes], [.. owners]);
    }

    /// <summary>Gives what the file notes of every channel; an axis may come twice only where places tell the sensors apart.</summary>
    private static (IReadOnlyList<Axis>? Axes, IReadOnlyList<SensorPlace>? Places) Noted(WavLayout layout)
    {
        // A note of the supply's channel stands for the last one, which is no axis.
        var noted = layout.Channels - (layout.Notes.Supply == layout.Channels ? 1 : 0);
        var places = layout.Notes.Places is { } owners && owners.Count == noted ? owners : null;
        var axes = layout.Notes.Axes is { } all && all.Count == noted && (places is not null || all.Distinct().Count() == all.Count) ? all : null;
        return (axes, places);
    }

    private static (int[] Channels, Axis[] Axes) OfOne(CaptureBytes bytes, WavLayout layout, IReadOnlyList<Axis>? noted, IReadOnlyList<ColumnChoice> chosen, List<string> guesses, int supply)
    {
        var channels = chosen.Count == 0
            ? Enumerable.Range(0, layout.Channels).Where(channel => channel != supply).Take(3).ToArray()
            : chosen.Select(c => Find(bytes, layout, noted, c)).ToArray();
        var roles = channels.Select((channel, i) =>
            i < chosen.Count && chosen[i].Role != ColumnRole.Unsaid ? chosen[i].Role
            : channel < noted?.Count ? ColumnRole.X + (int)noted[channel] : ColumnRole.Unsaid).ToArray();
        Complete(roles, channels, guesses);
        if (channels.Contains(supply))
        {
            throw bytes.Error(FormattableString.Invariant($"channel {supply + 1} is the supply's voltage and cannot be an axis as well; choose others with --columns, or another --supply-channel"));
        }

        return channels.Distinct().Count() == channels.Length && roles.Distinct().Count() == roles.Length && !roles.Contains(ColumnRole.Unsaid)
            ? (channels, Array.ConvertAll(roles, r => (Axis)(r - ColumnRole.X)))
            : throw bytes.Error("two of the chosen channels are the same, or stand for the same axis; say which is which, as in --columns x=1,z=2");
    }

    private static int Find(CaptureBytes bytes, WavLayout layout, IReadOnlyList<Axis>? noted, ColumnChoice choice)
    {
        var channel = choice.Number is { } number ? number - 1
            : Enum.TryParse<Axis>(choice.Name, ignoreCase: true, out var axis) && noted is not null ? noted.ToList().IndexOf(axis) : -1;
        return channel >= 0 && channel < layout.Channels ? channel : throw bytes.Error(FormattableString.Invariant(
            $"has no channel '{choice.Name ?? $"{choice.Number}"}'; it has {layout.Channels}, counted from 1: choose with {(choice.Place is null ? "" : "channels in [[sensors]] or ")}--columns"));
    }

    private static void Complete(ColumnRole[] roles, int[] channels, List<string> guesses)
    {
        ColumnRole[] order = roles.Length == 2 ? [ColumnRole.X, ColumnRole.Z, ColumnRole.Y] : [ColumnRole.X, ColumnRole.Y, ColumnRole.Z];
        for (var i = 0; i < roles.Length; i++)
        {
            if (roles[i] == ColumnRole.Unsaid)
            {
                roles[i] = order.FirstOrDefault(r => !roles.Contains(r));
                guesses.Add(FormattableString.Invariant(
                    $"channel {channels[i] + 1} was taken for {roles[i].ToString().ToLowerInvariant()}; say otherwise with --columns"));
            }
        }
    }
}
