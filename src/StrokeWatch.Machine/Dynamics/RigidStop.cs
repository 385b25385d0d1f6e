namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The periodic motion of x″ + x = F cos ωt against a rigid stop at x = d, one impact in n drive cycles: the reference for the contact model.
/// Source: derived after Shaw and Holmes, J. Sound Vib. 90 (1983) 129-155.
/// </summary>
public static class RigidStop
{
    /// <summary>
    /// Gives the impact speed v, the positive root of [(1−e)²/4ω² + (1+e)²c²/4] v² + d(1+e)c v + d² − C² = 0 with C = F/(1−ω²),
    /// c = cot(πn/ω); null where no such motion exists.
    /// </summary>
    public static double? ImpactSpeed(double force, double omega, double stop, double restitution, int cycles)
    {
        var amplitude = force / (1 - (omega * omega));
        var cotangent = 1 / Math.Tan(Math.PI * cycles / omega);
        var a = (Square((1 - restitution) / omega) + Square((1 + restitution) * cotangent)) / 4;
        var b = stop * (1 + restitution) * cotangent;
        var c = Square(stop) - Square(amplitude);
        var discriminant = Square(b) - (4 * a * c);
        if (discriminant < 0)
        {
            return null;
        }

        var speed = (-b + Math.Sqrt(discriminant)) / (2 * a);
        return speed > 0 ? speed : null;
    }

    /// <summary>Gives the level that the lines of the acceleration tend to at high orders: the impulse train's 2(1+e)v/T, T = 2πn/ω.</summary>
    public static double LineFloor(double impactSpeed, double omega, double restitution, int cycles) =>
        2 * (1 + restitution) * impactSpeed * omega / (2 * Math.PI * cycles);

    private static double Square(double value) => value * value;
}
