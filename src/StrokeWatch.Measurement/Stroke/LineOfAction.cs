using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>The line of action in the sensor's axes: given by an angle, or told by the vibration.</summary>
internal sealed class LineOfAction
{
    private const double LeastAlong = 0.02;
    private readonly IReadOnlyList<Axis> axes;
    private readonly double? degrees;
    private readonly double[] given;

    /// <summary>Makes the line for a sensor's axes and an angle above the x axis in the x-z plane; null where the vibration tells.</summary>
    public LineOfAction(IReadOnlyList<Axis> axes, double? degrees)
    {
        this.axes = axes;
        this.degrees = degrees;
        if (degrees is not { } angle)
        {
            given = [];
            return;
        }

        var (sin, cos) = Math.SinCos(angle * Math.PI / 180);
        given = [.. axes.Select(axis => axis switch { Axis.X => cos, Axis.Z => sin, _ => 0.0 })];
        var along = given.Sum(value => value * value);
        if (along < LeastAlong)
        {
            Impossible = "the sensor's axes stand square to the given line of action";
            return;
        }

        // The least-squares motion along the line, from the axes there are: one axis alone is divided by its cosine.
        for (var a = 0; a < given.Length; a++)
        {
            given[a] /= along;
        }
    }

    /// <summary>Gets the weights of the axes along a given line; empty where the vibration tells.</summary>
    public ReadOnlySpan<double> Given => given;

    /// <summary>Gets why nothing can be measured along the given line; null where it can.</summary>
    public string? Impossible { get; }

    /// <summary>Adds the axes up along a direction, in m/s².</summary>
    public void Project(WindowBuffer buffer, int count, ReadOnlySpan<double> direction, Span<double> line)
    {
        var target = line[..count];
        if (axes.Count == 3)
        {
            Lanes.WeighThree(
                buffer.Axes[0].AsSpan(buffer.First, count), buffer.Axes[1].AsSpan(buffer.First, count), buffer.Axes[2].AsSpan(buffer.First, count), direction, target);
            return;
        }

        Lanes.Weigh(buffer.Axes[0].AsSpan(buffer.First, count), direction[0], target);
        for (var a = 1; a < axes.Count; a++)
        {
            Lanes.AddWeighted(buffer.Axes[a].AsSpan(buffer.First, count), direction[a], target);
        }
    }

    /// <summary>Gives how much an axis's noise is enlarged along a direction.</summary>
    public double Norm(ReadOnlySpan<double> direction)
    {
        var square = 0.0;
        foreach (var value in direction)
        {
            square += value * value;
        }

        return Math.Sqrt(square);
    }

    /// <summary>Gives the angle above the x axis in the x-z plane, from -90 to 90 degrees; null where one axis alone cannot tell.</summary>
    public double? AngleDegrees(ReadOnlySpan<double> direction)
    {
        if (degrees is not null)
        {
            return degrees;
        }

        double x = 0, z = 0;
        for (var a = 0; a < axes.Count; a++)
        {
            x = axes[a] == Axis.X ? direction[a] : x;
            z = axes[a] == Axis.Z ? direction[a] : z;
        }

        return axes.Count < 2 ? null : Math.Atan2(x < 0 ? -z : z, Math.Abs(x)) * 180 / Math.PI;
    }
}
