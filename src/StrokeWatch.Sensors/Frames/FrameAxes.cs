using System.Numerics;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The axes of a frame as bits: 1 for x, 2 for y, 4 for z; values follow each other in that order.</summary>
internal static class FrameAxes
{
    /// <summary>All three axes.</summary>
    public const byte All = 7;

    /// <summary>Gives the number of axes.</summary>
    public static int Count(byte axes) => BitOperations.PopCount(axes);

    /// <summary>Gives the axes in the order sent.</summary>
    public static IReadOnlyList<Axis> List(byte axes)
    {
        var list = new List<Axis>(3);
        for (var i = 0; i < 3; i++)
        {
            if ((axes & (1 << i)) != 0)
            {
                list.Add((Axis)i);
            }
        }

        return list;
    }

    /// <summary>Gives the bits of a list of axes.</summary>
    public static byte Bits(IEnumerable<Axis> axes)
    {
        var bits = 0;
        foreach (var axis in axes)
        {
            bits |= 1 << (int)axis;
        }

        return (byte)bits;
    }
}
