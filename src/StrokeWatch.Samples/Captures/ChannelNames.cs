using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>The names of channels in a header: <c>x</c>, or <c>front_left_x</c> where there are several sensors.</summary>
public static class ChannelNames
{
    private const int Most = 64;

    /// <summary>Gives the names, one a channel.</summary>
    /// <param name="axes">The axis of each channel.</param>
    /// <param name="places">The place of each channel's sensor; none where there is one sensor.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<Axis> axes, IReadOnlyList<SensorPlace>? places) => [.. axes.Select((axis, i) =>
        (places is { Count: > 0 } ? SensorPlaces.Name(places[i]).Replace('-', '_') + "_" : "") + axis.ToString().ToLowerInvariant())];

    /// <summary>Refuses channels that no header can name: none, more than 64, more than three without places, or one place's axis twice.</summary>
    internal static void Check(IReadOnlyList<Axis> axes, IReadOnlyList<SensorPlace>? places)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(axes.Count, 1, nameof(axes));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(axes.Count, places is { Count: > 0 } ? Most : 3, nameof(axes));
        if (places is { Count: > 0 })
        {
            ArgumentOutOfRangeException.ThrowIfNotEqual(places.Count, axes.Count, nameof(places));
            ArgumentOutOfRangeException.ThrowIfNotEqual(axes.Zip(places).Distinct().Count(), axes.Count, nameof(axes));
        }
    }
}
