namespace StrokeWatch.Assessment.Trends;

/// <summary>What the readings say of a change of one shape at one date.</summary>
/// <param name="Product">r′Py, the weighted agreement of readings and shape.</param>
/// <param name="Weight">r′Pr, one over the variance of the size.</param>
internal readonly record struct ChangeSum(double Product, double Weight);
