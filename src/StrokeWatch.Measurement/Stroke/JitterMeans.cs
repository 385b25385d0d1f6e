using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Means over a window of the squares of slope and residual, and of their products with the neighbour before.</summary>
/// <param name="Slope">Mean squared slope.</param>
/// <param name="Residual">Mean squared residual.</param>
/// <param name="NextSlope">Mean product of neighbouring slopes.</param>
/// <param name="NextResidual">Mean product of neighbouring residuals.</param>
internal readonly record struct JitterMeans(double Slope, double Residual, double NextSlope, double NextResidual)
{
    /// <summary>Gets the means, each in every lane.</summary>
    public (Vector<double> Slope, Vector<double> Residual, Vector<double> NextSlope, Vector<double> NextResidual) Wide =>
        (new(Slope), new(Residual), new(NextSlope), new(NextResidual));
}
