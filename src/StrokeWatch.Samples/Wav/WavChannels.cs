using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Wav;

/// <summary>Decides which channels of a WAV file are taken, and for which axes.</summary>
internal static class WavChannels
{
    /// <summary>Chooses channels (from 0) with their axes; guesses are added to the list.</summary>
    public static (int[] Channels, Axis[] Axes) Choose(CaptureBytes bytes, WavLayout layout, CaptureOptions options, List<string> guesses)
    {
        var noted = layout.Notes.Axes is { } axes && axes.Count == layout.Channels ? axes : null;
        var chosen = options.Columns?.Where(c => c.Role != ColumnRole.Time).ToList() ?? [];
        var channels = chosen.Count == 0
            ? Enumerable.Range(0, Math.Min(3, layout.Channels)).ToArray()
            : chosen.Select(c => Find(bytes, layout, noted, c)).ToArray();
        if (chosen.Count == 0 && layout.Channels > 3)
        {
            guesses.Add(FormattableString.Invariant($"the first 3 of {layout.Channels} channels were taken; say otherwise with --columns"));
        }

        var roles = channels.Select((channel, i) =>
            i < chosen.Count && chosen[i].Role != ColumnRole.Unsaid ? chosen[i].Role
            : noted is not null ? ColumnRole.X + (int)noted[channel] : ColumnRole.Unsaid).ToArray();
        Complete(roles, channels, guesses);
        if (channels.Distinct().Count() < channels.Length || roles.Distinct().Count() < roles.Length)
        {
            throw bytes.Error("two of the chosen channels are the same, or stand for the same axis; say which is which, as in --columns x=1,z=2");
        }

        return (channels, Array.ConvertAll(roles, r => (Axis)(r - ColumnRole.X)));
    }

    private static int Find(CaptureBytes bytes, WavLayout layout, IReadOnlyList<Axis>? noted, ColumnChoice choice)
    {
        var channel = choice.Number is { } number ? number - 1
            : Enum.TryParse<Axis>(choice.Name, ignoreCase: true, out var axis) && noted is not null ? noted.ToList().IndexOf(axis) : -1;
        return channel >= 0 && channel < layout.Channels ? channel : throw bytes.Error(FormattableString.Invariant(
            $"has no channel '{choice.Name ?? $"{choice.Number}"}'; it has {layout.Channels}, counted from 1: choose with --columns"));
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
