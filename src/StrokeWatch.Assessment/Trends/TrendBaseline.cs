namespace StrokeWatch.Assessment.Trends;

/// <summary>What a feature is when all is well, as far as a trend must know it.</summary>
/// <param name="Mean">Mean, in the feature's unit.</param>
/// <param name="Spread">Standard deviation between readings, at or above 0; that of the readings' own noise is within it.</param>
/// <param name="Readings">How many readings it was learned from, at least 2; null where mean and spread were told and count as known.</param>
/// <param name="OwnUncertainty">What the readings it was learned from scattered by their own noise alone (k = 1), at or above 0.</param>
public readonly record struct TrendBaseline(double Mean, double Spread, int? Readings, double OwnUncertainty)
{
    /// <summary>Gets the standard uncertainty of the mean.</summary>
    public double MeanUncertainty => Readings is { } count ? Spread / Math.Sqrt(count) : 0;

    /// <summary>Gets by how much more the next readings scatter than a spread learned from few readings says: the standard deviation of Student's t, √(ν/(ν − 2)); 1 where it is known.</summary>
    internal double SpreadDoubt => Readings is { } count && Spread > 0 ? Math.Sqrt((count - 1) / Math.Max(0.25, count - 3.0)) : 1;

    /// <summary>Gives the standard deviation to be expected of a reading of a healthy machine.</summary>
    /// <param name="ownUncertainty">The reading's own standard uncertainty by noise; what shifts all readings alike is not in it.</param>
    public double Deviation(double ownUncertainty)
    {
        var own = ownUncertainty * ownUncertainty;

        // Few readings may show a spread below their own noise by chance; a reading never scatters less than its noise.
        return Math.Sqrt(Math.Max(Spread * Spread - OwnUncertainty * OwnUncertainty + own, own));
    }
}
