namespace StrokeWatch.Machine.Magnet;

/// <summary>The room left between armature and core.</summary>
public static class AirGap
{
    /// <summary>
    /// Gives the clearance in metres at closest approach: g₀ − δ_pk − F_mean/k, δ_pk being the amplitude of the relative motion; zero or less
    /// foretells striking. Source: geometry.
    /// </summary>
    public static double Clearance(double restGap, double relativeAmplitude, double meanForce, double stiffness) =>
        restGap - relativeAmplitude - (meanForce / stiffness);
}
