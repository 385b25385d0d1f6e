namespace StrokeWatch.Machine.Dynamics;

/// <summary>
/// The steady response of a damped oscillator to a sinusoidal force; r is drive over natural frequency, ζ the damping ratio.
/// Source: <i>Harris' Shock and Vibration Handbook</i>, chapter 2 (from memory).
/// </summary>
public static class Resonance
{
    /// <summary>Gives the magnification M = 1/√((1−r²)²+(2ζr)²).</summary>
    public static double Magnification(double ratio, double dampingRatio) =>
        1 / double.Hypot(1 - (ratio * ratio), 2 * dampingRatio * ratio);

    /// <summary>Gives the phase lag in radians, 0 to π: atan2(2ζr, 1−r²).</summary>
    public static double PhaseLag(double ratio, double dampingRatio) =>
        Math.Atan2(2 * dampingRatio * ratio, 1 - (ratio * ratio));

    /// <summary>Gives the ratio at which the magnification peaks, √(1−2ζ²); 0 where ζ is 1/√2 or more.</summary>
    public static double PeakRatio(double dampingRatio) => Math.Sqrt(Math.Max(0, 1 - (2 * dampingRatio * dampingRatio)));

    /// <summary>Gives the highest magnification, 1/(2ζ√(1−ζ²)), for ζ below 1/√2.</summary>
    public static double PeakMagnification(double dampingRatio) =>
        1 / (2 * dampingRatio * Math.Sqrt(1 - (dampingRatio * dampingRatio)));

    /// <summary>Gives the transmissibility of a damped mount, √(1+(2ζr)²) M.</summary>
    public static double Transmissibility(double ratio, double dampingRatio) =>
        double.Hypot(1, 2 * dampingRatio * ratio) * Magnification(ratio, dampingRatio);

    /// <summary>Gives the two ratios at which the magnification is 1/√2 of its peak: r² = 1−2ζ² ∓ 2ζ√(1−ζ²).</summary>
    public static (double Lower, double Upper) HalfPowerRatios(double dampingRatio)
    {
        var centre = 1 - (2 * dampingRatio * dampingRatio);
        var half = 2 * dampingRatio * Math.Sqrt(1 - (dampingRatio * dampingRatio));
        return (Math.Sqrt(centre - half), Math.Sqrt(centre + half));
    }
}
