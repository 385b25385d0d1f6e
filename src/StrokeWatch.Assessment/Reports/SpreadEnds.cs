using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Which sensors stand against which: two ends or sides of the tray.</summary>
internal sealed record SpreadEnds(string First, string Second, (SensorPlace First, SensorPlace Second)[] Pairs)
{
    /// <summary>Gets front against rear.</summary>
    public static SpreadEnds FrontRear { get; } = new("front", "rear",
    [
        (SensorPlace.Front, SensorPlace.Rear), (SensorPlace.FrontLeft, SensorPlace.RearLeft), (SensorPlace.FrontRight, SensorPlace.RearRight),
    ]);

    /// <summary>Gets left against right.</summary>
    public static SpreadEnds LeftRight { get; } = new("left", "right",
    [
        (SensorPlace.Left, SensorPlace.Right), (SensorPlace.FrontLeft, SensorPlace.FrontRight), (SensorPlace.RearLeft, SensorPlace.RearRight),
    ]);

    /// <summary>
    /// Gives the weights of some places in the means of the two ends: whole pairs where there are any, so that a lone corner does not tilt the comparison, or else
    /// whatever each end has; null where one end has nothing.
    /// </summary>
    public (double[] First, double[] Second)? Weights(IReadOnlyList<SensorPlace> places, Func<SensorPlace, bool> measured)
    {
        var whole = Pairs.Where(pair => measured(pair.First) && measured(pair.Second)).ToList();
        var first = (whole.Count > 0 ? whole : [.. Pairs]).Select(pair => pair.First).Where(measured).ToList();
        var second = (whole.Count > 0 ? whole : [.. Pairs]).Select(pair => pair.Second).Where(measured).ToList();
        return first.Count == 0 || second.Count == 0
            ? null
            : ([.. places.Select(place => first.Contains(place) ? 1.0 / first.Count : 0)], [.. places.Select(place => second.Contains(place) ? 1.0 / second.Count : 0)]);
    }

    /// <summary>Gives the places that belong to either end.</summary>
    public bool Holds(SensorPlace place) => Pairs.Any(pair => pair.First == place || pair.Second == place);
}
