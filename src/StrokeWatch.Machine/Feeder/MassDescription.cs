namespace StrokeWatch.Machine.Feeder;

/// <summary>The two masses that swing against each other.</summary>
/// <param name="TrayKilograms">Tray with armature, in kg.</param>
/// <param name="BodyKilograms">Body with magnet, in kg.</param>
public sealed record MassDescription(double TrayKilograms, double BodyKilograms)
{
    /// <summary>Gets the reduced mass m₁m₂/(m₁+m₂) in kg.</summary>
    public double Reduced => TrayKilograms * BodyKilograms / (TrayKilograms + BodyKilograms);
}
