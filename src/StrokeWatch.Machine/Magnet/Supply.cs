namespace StrokeWatch.Machine.Magnet;

/// <summary>What the supply's voltage and its phase control do to pull and stroke.</summary>
/// <remarks>Source: flux goes with voltage, force with flux squared (unsaturated iron); phase control: power electronics textbooks, from memory.</remarks>
public static class Supply
{
    /// <summary>Gives the force, and with it the stroke, relative to full voltage: (V/V_full)².</summary>
    public static double ForceRatio(double volts, double fullVolts) => volts / fullVolts * (volts / fullVolts);

    /// <summary>Gives the force relative to another mains frequency at the same voltage: (f₁/f₂)².</summary>
    public static double ForceRatioAtFrequency(double fromHz, double toHz) => fromHz / toHz * (fromHz / toHz);

    /// <summary>Gives the stroke that full voltage would make, in the unit of the stroke given: D (V_full/V)².</summary>
    public static double NormaliseStroke(double stroke, double volts, double fullVolts) => stroke / ForceRatio(volts, fullVolts);

    /// <summary>Gives the power of the voltage with which the stroke at the drive's frequency goes: 2, and 1 where a constant flux B₀ is far from small beside the alternating B₁, for (B₀ + B₁)² holds 2B₀B₁ at that frequency.</summary>
    public static int StrokeExponent(bool biased) => biased ? 1 : 2;

    /// <summary>Gives the stroke that full voltage would make, in the unit of the stroke given, at a share of full voltage: D/(V/V_full)ⁿ.</summary>
    public static double NormaliseStroke(double stroke, double shareOfFull, bool biased) => stroke / Math.Pow(shareOfFull, StrokeExponent(biased));

    /// <summary>Gives the r.m.s. voltage of phase control on a resistive load relative to the full wave, at a firing angle in radians, 0 to π: √(1 − α/π + sin 2α/2π).</summary>
    public static double PhaseControlRms(double firing) =>
        Math.Sqrt(Math.Max(0, 1 - (firing / Math.PI) + (Math.Sin(2 * firing) / (2 * Math.PI))));
}
