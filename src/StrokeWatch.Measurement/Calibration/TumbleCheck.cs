using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>Says whether a capture is fit for a position of a tumble: long enough, still, not clipped, gravity where it should be.</summary>
public static class TumbleCheck
{
    /// <summary>The fewest samples.</summary>
    public const int FewestSamples = 100;

    /// <summary>The most that an axis at rest may scatter, in g (twice a noisy part's own noise; common practice, no source).</summary>
    public const double MostDeviationG = 0.05;

    /// <summary>How far the plumb axis may be from 1 g, in g: a sensor further off is broken, or stood askew.</summary>
    public const double MostErrorG = 0.3;

    private const double MostAcrossG = 0.3;

    /// <summary>Says in one line what is wrong, without the file's name; null where nothing is.</summary>
    public static string? Trouble(TumblePosition position, RestingStatistics rest)
    {
        if (rest.Count < FewestSamples)
        {
            return Text($"holds {rest.Count} samples of position {position}; {FewestSamples} or more were expected: record some seconds");
        }

        foreach (var axis in (Axis[])[Axis.X, Axis.Y, Axis.Z])
        {
            var deviation = rest.Deviation(axis) / Gravity.Standard;
            if (deviation > MostDeviationG)
            {
                return Text($"the sensor was not still in position {position}: {Letter(axis)} scatters by {deviation:0.000} g, at most {MostDeviationG} g was expected; record it again at rest");
            }
        }

        if (rest.Clipped > 0)
        {
            return Text($"{rest.Clipped} samples of position {position} stand at the sensor's rail; 1 g must be well within its range");
        }

        var seen = TumblePosition.All.MaxBy(other => (other.Up ? 1 : -1) * rest.Means[(int)other.Axis]);
        if (seen != position)
        {
            return Text($"is given as {position}, but gravity stands on {seen} ({Means(rest)}); name the positions as the sensor lay");
        }

        var off = Math.Abs(Math.Abs(rest.Means[(int)position.Axis]) / Gravity.Standard - 1);
        var across = TumblePosition.All.Where(other => other.Axis != position.Axis).Max(other => Math.Abs(rest.Means[(int)other.Axis])) / Gravity.Standard;
        return off > MostErrorG || across > MostAcrossG
            ? Text($"position {position} reads {Means(rest)}; one axis within {MostErrorG} g of 1 g and the others below {MostAcrossG} g were expected: stand the sensor square, and check the unit")
            : null;
    }

    private static char Letter(Axis axis) => "xyz"[(int)axis];

    private static string Means(RestingStatistics rest) =>
        Text($"x {rest.Means[0] / Gravity.Standard:0.000}, y {rest.Means[1] / Gravity.Standard:0.000}, z {rest.Means[2] / Gravity.Standard:0.000} g");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
