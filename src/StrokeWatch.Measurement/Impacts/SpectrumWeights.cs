namespace StrokeWatch.Measurement.Impacts;

/// <summary>The weights of <see cref="SpectrumEvidence"/>: a constant, one for each band, then mean and standard deviation of what phase-cut and rubbing machines give.</summary>
/// <remarks>
/// Logistic regression on runs of the benchmark project's study machine, seed 78: strikes of 15 to 150 % of the peak pull against supplies cut at 30° to 150° and rubbing,
/// at 1.6, 2.4 and 3.2 kHz. Mean and deviation are those of a normal distribution through the upper tenth of what was repeating but no strike.
/// </remarks>
internal static class SpectrumWeights
{
    /// <summary>Drives above this are twice the mains' frequency; a blow of the same length fills twice as much of their cycle.</summary>
    internal const double FastDriveHz = 80;

    private static ReadOnlySpan<double> FourSlow => [13.195, -2.720, -1.635, 0.657, 7.284, -3.937, 2.158];

    private static ReadOnlySpan<double> FourFast => [12.668, -2.549, -0.379, -0.012, 6.646, -3.189, 2.081];

    private static ReadOnlySpan<double> FiveSlow => [14.027, -0.914, -0.862, -0.382, 1.877, 4.970, -6.459, 3.099];

    private static ReadOnlySpan<double> FiveFast => [12.998, -0.692, -1.060, -0.326, 2.049, 4.443, -4.991, 2.313];

    private static ReadOnlySpan<double> SixSlow => [23.180, -3.053, -0.645, -1.463, 1.930, 4.435, 4.808, -6.759, 2.531];

    private static ReadOnlySpan<double> SixFast => [25.371, -2.358, -0.366, -1.019, 1.488, 4.543, 5.208, -6.9, 2.7];

    /// <summary>Gives the weights for a number of bands (4 to 6) and a drive at the mains' frequency or at twice that.</summary>
    public static ReadOnlySpan<double> Of(int bands, bool fast) => (bands, fast) switch
    {
        (4, false) => FourSlow,
        (4, true) => FourFast,
        (5, false) => FiveSlow,
        (5, true) => FiveFast,
        (_, false) => SixSlow,
        (_, true) => SixFast,
    };
}
