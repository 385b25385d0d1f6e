namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>That two components of a budget are correlated.</summary>
/// <param name="First">Index of the one, from 0.</param>
/// <param name="Second">Index of the other.</param>
/// <param name="Coefficient">Correlation coefficient of the estimates, -1 to 1.</param>
public readonly record struct Correlation(int First, int Second, double Coefficient);
