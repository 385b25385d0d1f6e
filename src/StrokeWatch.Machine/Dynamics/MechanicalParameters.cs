namespace StrokeWatch.Machine.Dynamics;

/// <summary>The moving parts of a feeder, along its line of action: tray on leaf springs on a body, the body on soft mounts.</summary>
public sealed record MechanicalParameters
{
    /// <summary>Gets the tray's mass with armature and load, in kg.</summary>
    public required double TrayKilograms { get; init; }

    /// <summary>Gets the body's mass with magnet, in kg.</summary>
    public required double BodyKilograms { get; init; }

    /// <summary>Gets the stiffness of all leaf springs in N/m.</summary>
    public required double Stiffness { get; init; }

    /// <summary>Gets the damping between tray and body, in N s/m.</summary>
    public double Damping { get; init; }

    /// <summary>Gets the stiffness of the mounts in N/m.</summary>
    public double MountStiffness { get; init; }

    /// <summary>Gets the damping of the mounts in N s/m.</summary>
    public double MountDamping { get; init; }

    /// <summary>Gets how far tray and body can approach each other before armature and core touch, in metres; infinite where they never do.</summary>
    public double ContactGap { get; init; } = double.PositiveInfinity;

    /// <summary>Gets the contact law; null where they pass without force.</summary>
    public ContactLaw? Contact { get; init; }

    /// <summary>Gives the damping in N s/m that a damping ratio of the relative motion stands for: 2ζ√(k mᵣ).</summary>
    public static double DampingFor(double dampingRatio, double stiffness, double reducedKilograms) =>
        2 * dampingRatio * Math.Sqrt(stiffness * reducedKilograms);
}
