namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The force between armature and core once their gap is closed: F = k p (1 + d ṗ), never pulling; p is how far they have gone into each other.
/// Source: Hunt and Crossley, J. Appl. Mech. 42 (1975) 440-445, with exponent 1 (from memory); the restitution relation is derived by
/// integrating m v dv/dp = −F(p, v), whose p-part drops out.
/// </summary>
/// <param name="Stiffness">Stiffness k in N/m.</param>
/// <param name="Damping">Damping factor d in s/m.</param>
public sealed record ContactLaw(double Stiffness, double Damping)
{
    /// <summary>Makes the law from what a blow shows: its length in seconds, and the restitution (0.05 to 1) at an impact speed in m/s, for a reduced mass in kg.</summary>
    public static ContactLaw From(double durationSeconds, double restitution, double impactSpeed, double reducedKilograms)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(durationSeconds);
        ArgumentOutOfRangeException.ThrowIfLessThan(restitution, 0.05);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(restitution, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(impactSpeed);
        var omega = Math.PI / durationSeconds;
        return new(reducedKilograms * omega * omega, DampingFor(restitution) / impactSpeed);
    }

    /// <summary>Gives the force in N that pushes the masses apart, at a penetration in metres and its speed in m/s; 0 where they do not touch.</summary>
    public double Force(double penetration, double speed) =>
        penetration <= 0 ? 0 : Math.Max(0, Stiffness * penetration * (1 + (Damping * speed)));

    /// <summary>Solves x(1+e) = ln((1+x)/(1−ex)) for x = d·v; 0 for a perfectly elastic blow.</summary>
    private static double DampingFor(double restitution)
    {
        if (restitution >= 1)
        {
            return 0;
        }

        double low = 1e-9, high = (1 - 1e-12) / restitution;
        for (var i = 0; i < 200; i++)
        {
            var middle = (low + high) / 2;
            var excess = Math.Log((1 + middle) / (1 - (restitution * middle))) - (middle * (1 + restitution));
            if (excess > 0)
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        return (low + high) / 2;
    }
}
