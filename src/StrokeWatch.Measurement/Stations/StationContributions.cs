using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Stations;

/// <summary>
/// How the contributions of several sensors go together: what belongs to each sensor (sensitivity, alignment, cross-axis) is independent of the others;
/// what belongs to the drive and the clock that all share (frequency, jitter) is one error in all.
/// </summary>
public static class StationContributions
{
    /// <summary>Says whether a contribution is one error in all sensors.</summary>
    public static bool IsShared(string name) => name is StrokeContributions.Frequency or StrokeContributions.TimingJitter;

    /// <summary>Gives the relative standard uncertainty of what is each sensor's own.</summary>
    public static double Own(StrokeContributions contributions) => Root(contributions, shared: false);

    /// <summary>Gives the relative standard uncertainty of what all sensors share.</summary>
    public static double Shared(StrokeContributions contributions) => Root(contributions, shared: true);

    /// <summary>Gives the contributions to the mean stroke of some sensors whose strokes are about equal.</summary>
    public static StrokeContributions OfMean(IReadOnlyList<StrokeContributions> sensors)
    {
        if (sensors.Count == 1)
        {
            return sensors[0];
        }

        var items = sensors.SelectMany(sensor => sensor.Items).GroupBy(item => item.Name).Select(group => Mean([.. group], sensors.Count));
        return new([.. items], sensors.Any(sensor => sensor.SensitivityAssumed));
    }

    private static StrokeContribution Mean(IReadOnlyList<StrokeContribution> items, int sensors)
    {
        var largest = items.MaxBy(item => item.Relative)!;
        if (IsShared(largest.Name))
        {
            return largest;
        }

        // The degrees of freedom of a sum of squares after Welch and Satterthwaite (GUM, G.2b).
        var square = items.Sum(item => item.Relative * item.Relative);
        var spread = items.Sum(item => Math.Pow(item.Relative, 4) / item.DegreesOfFreedom);
        var basis = FormattableString.Invariant($"mean of {sensors} sensors, each independent of the others; the largest: {largest.Basis}");
        return new(largest.Name, Math.Sqrt(square) / sensors, spread > 0 ? square * square / spread : double.PositiveInfinity, basis);
    }

    private static double Root(StrokeContributions contributions, bool shared)
    {
        var square = 0.0;
        foreach (var item in contributions.Items)
        {
            square += IsShared(item.Name) == shared ? item.Relative * item.Relative : 0;
        }

        return Math.Sqrt(square);
    }
}
