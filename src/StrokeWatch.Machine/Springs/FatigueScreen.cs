namespace StrokeWatch.Machine.Springs;

/// <summary>
/// A first estimate of the stress that a ground steel leaf endures for ever; stresses in Pa, lengths in metres.
/// </summary>
/// <remarks>
/// Source: Shigley, <i>Mechanical Engineering Design</i>, 9th ed., chapter 6: Se′ = Sut/2 (700 MPa at most), surface 1.58 Sut^−0.085, size 1.24 d^−0.107 with
/// d = 0.808 √(hb), reliability. Fretting at the clamps can halve it or worse (from memory): a screen, no proof.
/// </remarks>
public static class FatigueScreen
{
    /// <summary>Reliability factor for 99 of 100 leaves.</summary>
    public const double Reliable99 = 0.814;

    /// <summary>Gives the surface factor of ground steel.</summary>
    public static double Surface(double tensile) => 1.58 * Math.Pow(tensile / 1e6, -0.085);

    /// <summary>Gives the diameter in metres of a round bar as endangered as a rectangle that bends to and fro.</summary>
    public static double EquivalentDiameter(double width, double thickness) => 0.808 * Math.Sqrt(width * thickness);

    /// <summary>Gives the size factor for an equivalent diameter of 2.79 to 51 mm.</summary>
    public static double Size(double diameter) => 1.24 * Math.Pow(diameter * 1e3, -0.107);

    /// <summary>Gives the endurance stress of half of all leaves.</summary>
    public static double Endurance(double tensile, double width, double thickness) =>
        Math.Min(0.5 * tensile, 700e6) * Surface(tensile) * Size(EquivalentDiameter(width, thickness));

    /// <summary>Gives the factor of safety against fatigue by Goodman's line: 1/(σ_a/S_e + σ_m/S_ut).</summary>
    public static double GoodmanFactor(double amplitude, double mean, double endurance, double tensile) => 1 / ((amplitude / endurance) + (mean / tensile));
}
