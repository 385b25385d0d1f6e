using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.Calibration;

/// <summary>One stroke read by this sensor and by a reference instrument at the same time: the ratio, and its uncertainty.</summary>
public static class ComparisonFit
{
    /// <summary>Gives the sensor's gain, its stroke over the reference's.</summary>
    public static double Gain(double stroke, double reference) => stroke / reference;

    /// <summary>Makes the budget of the gain: relative standard uncertainties.</summary>
    /// <param name="own">Budget of this sensor's stroke; what it says of sensitivity and cross-axis is what the comparison finds, and is left out.</param>
    /// <param name="stroke">This sensor's stroke in metres.</param>
    /// <param name="reference">The reference's stroke in metres.</param>
    /// <param name="referenceExpanded">Expanded uncertainty (k = 2) of the reference's stroke in metres.</param>
    public static UncertaintyBudget Budget(UncertaintyBudget own, double stroke, double reference, double referenceExpanded) => new(
    [
        new("reference", Distributions.Normal(referenceExpanded, 2), 1 / reference, basis: "the reference instrument's stated uncertainty, k = 2"),
        .. own.Components
            .Where(part => part.Name is not (StrokeContributions.Sensitivity or StrokeContributions.CrossAxis))
            .Select(part => new UncertaintyComponent(part.Name, part.Contribution, 1 / stroke, part.DegreesOfFreedom, part.Basis)),
    ]);
}
