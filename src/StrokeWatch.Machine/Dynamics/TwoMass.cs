namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The closed formulas of two masses joined by one spring and free otherwise (soft mounts): tray m₁, body m₂, stiffness k.
/// Source: Den Hartog, <i>Mechanical Vibrations</i>; Thomson, <i>Theory of Vibration</i> (textbook relations, from memory).
/// </summary>
public static class TwoMass
{
    /// <summary>Gives the reduced mass m₁m₂/(m₁+m₂) in kg.</summary>
    public static double ReducedMass(double trayKilograms, double bodyKilograms) =>
        trayKilograms * bodyKilograms / (trayKilograms + bodyKilograms);

    /// <summary>Gives the undamped natural frequency in Hz of a stiffness in N/m and a mass in kg: √(k/m)/2π.</summary>
    public static double NaturalFrequencyHz(double stiffness, double kilograms) =>
        Math.Sqrt(stiffness / kilograms) / (2 * Math.PI);

    /// <summary>Gives the undamped natural frequency in Hz of the two masses on their spring.</summary>
    public static double NaturalFrequencyHz(double stiffness, double trayKilograms, double bodyKilograms) =>
        NaturalFrequencyHz(stiffness, ReducedMass(trayKilograms, bodyKilograms));

    /// <summary>Gives the stiffness in N/m that puts the natural frequency where it is wanted, in Hz.</summary>
    public static double StiffnessFor(double naturalHz, double trayKilograms, double bodyKilograms)
    {
        var omega = 2 * Math.PI * naturalHz;
        return omega * omega * ReducedMass(trayKilograms, bodyKilograms);
    }

    /// <summary>Gives the tray's share of the relative motion, m₂/(m₁+m₂).</summary>
    public static double TrayShare(double trayKilograms, double bodyKilograms) =>
        bodyKilograms / (trayKilograms + bodyKilograms);

    /// <summary>Gives the ratio of the tray's amplitude to the body's, m₂/m₁; the two move in opposite phase.</summary>
    public static double AmplitudeRatio(double trayKilograms, double bodyKilograms) => bodyKilograms / trayKilograms;

    /// <summary>Gives the relative motion's amplitude in metres that belongs to the tray's: X₁(1+m₁/m₂).</summary>
    public static double RelativeAmplitude(double trayAmplitude, double trayKilograms, double bodyKilograms) =>
        trayAmplitude * (1 + (trayKilograms / bodyKilograms));

    /// <summary>Gives the tray's steady amplitude in metres under a force in N of one frequency in Hz between the masses: (F/k) M(r,ζ) m₂/(m₁+m₂).</summary>
    public static double TrayAmplitude(double force, double driveHz, double stiffness, double dampingRatio, double trayKilograms, double bodyKilograms)
    {
        var ratio = driveHz / NaturalFrequencyHz(stiffness, trayKilograms, bodyKilograms);
        return force / stiffness * Resonance.Magnification(ratio, dampingRatio) * TrayShare(trayKilograms, bodyKilograms);
    }

    /// <summary>Gives the first-order relative change of the natural frequency: dk/2k − (m₂/(m₁+m₂)) dm₁/2m₁, from relative changes of stiffness and tray mass.</summary>
    public static double FrequencySensitivity(double stiffnessChange, double trayMassChange, double trayKilograms, double bodyKilograms) =>
        (stiffnessChange / 2) - (TrayShare(trayKilograms, bodyKilograms) * trayMassChange / 2);
}
