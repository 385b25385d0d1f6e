using StrokeWatch.Measurement.Orientation;

namespace StrokeWatch.Tests.Measurement;

/// <summary>A rotation in space, from a unit quaternion.</summary>
internal readonly record struct Rotation(double W, double X, double Y, double Z)
{
    /// <summary>Makes one at random, evenly over all rotations: four Gaussian numbers, normalised.</summary>
    public static Rotation Any(Random random)
    {
        var (w, x, y, z) = (Signal.Gauss(random), Signal.Gauss(random), Signal.Gauss(random), Signal.Gauss(random));
        var norm = Math.Sqrt(w * w + x * x + y * y + z * z);
        return new(w / norm, x / norm, y / norm, z / norm);
    }

    /// <summary>Makes a turn by degrees about an axis.</summary>
    public static Rotation About(double degrees, double x, double y, double z)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 360);
        return new(cos, sin * x, sin * y, sin * z);
    }

    /// <summary>Turns three numbers along x, y and z.</summary>
    public double[] Turn(double[] v) =>
    [
        (1 - 2 * (Y * Y + Z * Z)) * v[0] + 2 * (X * Y - W * Z) * v[1] + 2 * (X * Z + W * Y) * v[2],
        2 * (X * Y + W * Z) * v[0] + (1 - 2 * (X * X + Z * Z)) * v[1] + 2 * (Y * Z - W * X) * v[2],
        2 * (X * Z - W * Y) * v[0] + 2 * (Y * Z + W * X) * v[1] + (1 - 2 * (X * X + Y * Y)) * v[2],
    ];

    /// <summary>Turns a triple.</summary>
    public Triple Turn(Triple v)
    {
        var turned = Turn([v.X, v.Y, v.Z]);
        return new(turned[0], turned[1], turned[2]);
    }
}
