namespace StrokeWatch.Machine.Springs;

/// <summary>
/// A leaf clamped at both ends whose ends stay parallel (guided). Lengths in metres, moduli and stresses in Pa.
/// Source: guided cantilever R = P, M = PL/2, δ = PL³/12EI (Roark, table 8.1 case 1b, from memory).
/// </summary>
public static class LeafSpring
{
    /// <summary>The part of a leaf's mass that moves with its guided end, 13/35, from the static shape 3s²−2s³.</summary>
    public const double EffectiveMassShare = 13.0 / 35.0;

    /// <summary>Gives the second moment of area in m⁴: bt³/12.</summary>
    public static double SecondMoment(double width, double thickness) => width * Math.Pow(thickness, 3) / 12;

    /// <summary>Gives the stiffness of one leaf in N/m: 12EI/L³ = Ebt³/L³.</summary>
    public static double Stiffness(double modulus, double width, double thickness, double length) =>
        modulus * width * Math.Pow(thickness / length, 3);

    /// <summary>Gives the moment in N m at both clamps for an end displacement: 6EId/L².</summary>
    public static double ClampMoment(double modulus, double width, double thickness, double length, double displacement) =>
        6 * modulus * SecondMoment(width, thickness) * displacement / (length * length);

    /// <summary>Gives the bending stress at the clamps for an end displacement: 3Etd/L².</summary>
    public static double Stress(double modulus, double thickness, double length, double displacement) =>
        3 * modulus * thickness * displacement / (length * length);

    /// <summary>Gives the frequency in Hz of a leaf's own first bending mode, for a density in kg/m³: (βL)²/2π √(EI/ρbtL⁴).</summary>
    public static double OwnFrequencyHz(double modulus, double thickness, double length, double density, LeafEnds ends = LeafEnds.Clamped) =>
        Math.Pow(BetaL(ends), 2) / (2 * Math.PI) * Math.Sqrt(modulus * thickness * thickness / (12 * density * Math.Pow(length, 4)));

    /// <summary>
    /// Gives βL of the first bending mode: the first root of cos βL cosh βL = 1 for both ends clamped, of tan βL + tanh βL = 0 for one end guided,
    /// of cos βL cosh βL = −1 for one end free (Euler's beam; Blevins, table 8-1, from memory).
    /// </summary>
    public static double BetaL(LeafEnds ends) => ends switch
    {
        LeafEnds.Clamped => 4.730040744862704,
        LeafEnds.Guided => 2.365020372431352,
        LeafEnds.Free => 1.875104068711961,
        _ => throw new ArgumentOutOfRangeException(nameof(ends)),
    };

    /// <summary>Gives the factor on the natural frequency when one of n equal leaves is lost: √((n−1)/n).</summary>
    public static double FrequencyFactorOneLost(int leaves)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(leaves, 2);
        return Math.Sqrt((leaves - 1.0) / leaves);
    }
}
