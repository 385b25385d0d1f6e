namespace StrokeWatch.Machine.Tuning;

/// <summary>One machine that the trials may have come from: everything the fit does not know.</summary>
/// <param name="JointEfficiency">Stiffness of clamped leaves against the leaf formula, front.</param>
/// <param name="RearRatio">Efficiency of the rear joints over that of the front.</param>
/// <param name="Penetration">How much longer than free a leaf bends, in thicknesses.</param>
/// <param name="TrayKilograms">Tray with armature in kg, as the feeder file's tray is.</param>
/// <param name="BodyKilograms">Body with magnet in kg.</param>
/// <param name="DampingRatio">Damping ratio of the free vibration.</param>
/// <param name="LogForce">Logarithm of the force's amplitude in N at the drive frequency and full voltage.</param>
/// <param name="Softening">Stiffness in N/m that the running magnet takes away.</param>
/// <param name="MagnetDamping">Damping ratio that the running magnet adds.</param>
public readonly record struct FeederState(
    double JointEfficiency, double RearRatio, double Penetration, double TrayKilograms, double BodyKilograms, double DampingRatio, double LogForce, double Softening,
    double MagnetDamping)
{
    /// <summary>Gets how much the clamps and the frame give way: the stiffness of the feeder file's rear leaves over that of what holds them.</summary>
    public double Give { get; init; }

    /// <summary>Gets the logarithm of what the rear stack, as it is clamped now, is stiffer than its kind.</summary>
    public double Clamping { get; init; }
}
