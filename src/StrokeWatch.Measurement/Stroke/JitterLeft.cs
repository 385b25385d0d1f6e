namespace StrokeWatch.Measurement.Stroke;

/// <summary>What the regression of squared residual on squared slope leaves over.</summary>
/// <param name="Variance">Σ (x left)², by White's formula the variance of Σ x left.</param>
/// <param name="NextVariance">The same of the products with the neighbour.</param>
/// <param name="Total">Σ left².</param>
/// <param name="PhasePower">What of it goes with the first multiples of the phase.</param>
internal readonly record struct JitterLeft(double Variance, double NextVariance, double Total, double PhasePower);
