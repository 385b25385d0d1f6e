using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.Supply;

/// <summary>By how much an accelerometer's own filter delays what it reads, a low-pass of one pole or of two (Butterworth).</summary>
/// <remarks>One pole lags by atan(f/f₀), two by atan(√2 (f/f₀)/(1 − (f/f₀)²)) (signal processing textbooks, from memory).</remarks>
/// <param name="CornerHz">The corner f₀ in Hz, where the filter lets 71 % through; null where nobody said it.</param>
/// <param name="Poles">One pole or two.</param>
public readonly record struct SensorLag(double? CornerHz, int Poles)
{
    /// <summary>How far off a stated corner may be (common practice, no source).</summary>
    private const double CornerError = 0.1;

    /// <summary>The lowest corner that a sensor has whose data sheet nobody looked at, as a share of the rate (common practice, no source).</summary>
    private const double LowestCorner = 0.2;

    /// <summary>Gives the lag in degrees and its expanded uncertainty (k = 2); where the corner is not known, nothing and all that it may be.</summary>
    /// <param name="hertz">The frequency in Hz.</param>
    /// <param name="rateHz">The rate of the samples in Hz.</param>
    public (double Degrees, double Uncertainty) At(double hertz, double rateHz) => CornerHz is { } corner
        ? (Of(hertz / corner, Poles), Distributions.Rectangular(2 * CornerError * Of(hertz / corner, Poles)))
        : (0, 2 * Distributions.Rectangular(Of(hertz / (LowestCorner * rateHz), 2)));

    private static double Of(double ratio, int poles) =>
        (poles == 1 ? Math.Atan(ratio) : Math.Atan2(Math.Sqrt(2) * ratio, 1 - ratio * ratio)) * 180 / Math.PI;
}
