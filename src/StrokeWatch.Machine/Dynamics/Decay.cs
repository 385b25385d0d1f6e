namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The free decay of a damped oscillator, and the time a start-up needs to settle.
/// Source: textbook relations (Thomson, <i>Theory of Vibration</i>, from memory).
/// </summary>
public static class Decay
{
    /// <summary>Gives the logarithmic decrement (1/n) ln(x₀/xₙ) of two amplitudes n cycles apart.</summary>
    public static double LogDecrement(double first, double last, int cycles)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cycles, 1);
        return Math.Log(first / last) / cycles;
    }

    /// <summary>Gives the damping ratio of a logarithmic decrement: d/√(4π²+d²).</summary>
    public static double DampingRatio(double logDecrement) => logDecrement / double.Hypot(2 * Math.PI, logDecrement);

    /// <summary>Gives the logarithmic decrement of a damping ratio below 1: 2πζ/√(1−ζ²).</summary>
    public static double LogDecrement(double dampingRatio) =>
        2 * Math.PI * dampingRatio / Math.Sqrt(1 - (dampingRatio * dampingRatio));

    /// <summary>Gives the damped frequency in Hz, the one a coast-down shows: fₙ√(1−ζ²).</summary>
    public static double DampedFrequencyHz(double naturalHz, double dampingRatio) =>
        naturalHz * Math.Sqrt(1 - (dampingRatio * dampingRatio));

    /// <summary>Gives the time constant of the decay in seconds: 1/(2πζfₙ).</summary>
    public static double TimeConstant(double naturalHz, double dampingRatio) =>
        1 / (2 * Math.PI * dampingRatio * naturalHz);

    /// <summary>Gives the time in seconds after which a start-up beat has died away to under 1 %: five time constants (e⁻⁵ = 0.7 %).</summary>
    public static double SettleTime(double naturalHz, double dampingRatio) => 5 * TimeConstant(naturalHz, dampingRatio);

    /// <summary>Gives the frequency in Hz of the beat at start-up, |f_d − f|.</summary>
    public static double BeatHz(double driveHz, double naturalHz, double dampingRatio) =>
        Math.Abs(DampedFrequencyHz(naturalHz, dampingRatio) - driveHz);
}
