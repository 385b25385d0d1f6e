namespace StrokeWatch.Measurement.Orientation;

/// <summary>Three numbers along the sensor's x, y and z axes.</summary>
/// <param name="X">Along x.</param>
/// <param name="Y">Along y.</param>
/// <param name="Z">Along z.</param>
public readonly record struct Triple(double X, double Y, double Z)
{
    /// <summary>Gets the length.</summary>
    public double Norm => Math.Sqrt(X * X + Y * Y + Z * Z);

    /// <summary>Gives the scalar product.</summary>
    public double Dot(Triple other) => X * other.X + Y * other.Y + Z * other.Z;
}
