using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>One of the six positions of a tumble: an axis up or down.</summary>
/// <param name="Axis">The axis that stands plumb.</param>
/// <param name="Up">Whether it points up, so that the sensor reads +1 g on it.</param>
public readonly record struct TumblePosition(Axis Axis, bool Up)
{
    /// <summary>Gets the six positions: x+, x-, y+, y-, z+, z-.</summary>
    public static IReadOnlyList<TumblePosition> All { get; } =
        [.. from axis in (Axis[])[Axis.X, Axis.Y, Axis.Z] from up in (bool[])[true, false] select new TumblePosition(axis, up)];

    /// <summary>Reads <c>x+</c>, <c>z-</c> and the like.</summary>
    public static bool TryParse(string text, out TumblePosition position)
    {
        foreach (var known in All)
        {
            if (text.Trim().Equals(known.ToString(), StringComparison.OrdinalIgnoreCase))
            {
                position = known;
                return true;
            }
        }

        position = default;
        return false;
    }

    /// <summary>Writes <c>x+</c>, <c>z-</c> and the like.</summary>
    public override string ToString() => $"{"xyz"[(int)Axis]}{(Up ? '+' : '-')}";
}
