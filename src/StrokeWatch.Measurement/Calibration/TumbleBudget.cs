using System.Globalization;
using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>Makes the budget of a tumble's calibration: relative standard uncertainties of an acceleration along any direction.</summary>
/// <remarks>
/// With an error E in K the acceleration along a unit vector d is wrong by dᵀEd. Errors of one size u in all nine places make u; in the six beside the
/// diagonal at most √(2/3)·u, along the space diagonal.
/// </remarks>
public static class TumbleBudget
{
    private const int Sides = 2;

    /// <summary>Gives what a tilt in degrees takes off the 1 g reference, relative: 1 − cos.</summary>
    public static double LevelError(double tiltDegrees) => 1 - Math.Cos(tiltDegrees * Math.PI / 180);

    /// <summary>Makes the budget.</summary>
    /// <param name="fit">The fit, in m/s².</param>
    /// <param name="gravity">Local gravity.</param>
    /// <param name="tiltDegrees">How far each position may lean from plumb, in degrees.</param>
    /// <param name="linearity">How far the sensitivity at a feeder's acceleration and frequency may be from that at rest, relative half-width.</param>
    public static UncertaintyBudget Of(TumbleFit fit, LocalGravity gravity, double tiltDegrees, double linearity)
    {
        var leaning = Distributions.Rectangular(Math.Sin(tiltDegrees * Math.PI / 180)) / Math.Sqrt(Sides);
        return new(
        [
            new("repeatability", fit.ResidualDeviation / gravity.Value / Math.Sqrt(Sides), 1, TumbleFit.DegreesOfFreedom, "residuals of the six positions"),
            new("level", Distributions.Rectangular(LevelError(tiltDegrees)), basis: Text($"each position within {tiltDegrees:0.###}° of plumb: loss of the 1 g reference, rectangular")),
            new("axis-directions", leaning, Math.Sqrt(2.0 / 3), basis: Text($"each position within {tiltDegrees:0.###}° of plumb: direction of the axes, worst line of action, rectangular")),
            new("gravity", Distributions.Rectangular(gravity.RelativeHalfWidth), basis: gravity.Basis),
            new("linearity", Distributions.Rectangular(linearity), basis: Text($"calibrated at rest with 1 g, used in motion: within {100 * linearity:0.###} %, rectangular (common practice, no source)")),
        ]);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
