namespace StrokeWatch.Machine.Magnet;

/// <summary>
/// The pull of a magnet across its gap. Source: Maxwell stress B²/2μ₀ on each pole face; Faraday's law; textbook relations, from memory.
/// </summary>
public static class Attraction
{
    /// <summary>Magnetic constant in H/m: 4π·10⁻⁷, from which the 2019 SI value differs by less than 10⁻⁹.</summary>
    public const double MagneticConstant = 4e-7 * Math.PI;

    /// <summary>Gives the pull in N of one pole face of an area in m² at a flux density in T: B²A/2μ₀.</summary>
    public static double PoleForce(double tesla, double area) => tesla * tesla * area / (2 * MagneticConstant);

    /// <summary>Gives the pull in N of a current-driven core with two gaps, each of g metres: μ₀N²I²A/4g².</summary>
    public static double CurrentDriven(double turns, double amperes, double area, double gap) =>
        MagneticConstant * Math.Pow(turns * amperes / (2 * gap), 2) * area;

    /// <summary>Gives the peak flux in Wb of a voltage-driven coil: √2 V/(2πfN), V being r.m.s.</summary>
    public static double PeakFlux(double volts, double frequencyHz, double turns) =>
        Math.Sqrt(2) * volts / (2 * Math.PI * frequencyHz * turns);

    /// <summary>Gives the stiffness in N/m (negative) that a current-driven pull of F newtons at a gap in metres adds to the springs: −2F/g.</summary>
    public static double Stiffness(double force, double gap) => -2 * force / gap;
}
