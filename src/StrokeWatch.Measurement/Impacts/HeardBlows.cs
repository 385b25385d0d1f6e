namespace StrokeWatch.Measurement.Impacts;

/// <summary>What <see cref="StrikeDetector"/> found in a window, for <see cref="StrikeMemory"/> to compare with windows before. Used again and again.</summary>
internal sealed class HeardBlows
{
    /// <summary>Gets the variance of cycles by sixteenths of the cycle, the first of them about the end of the path at which the acceleration along the line is greatest.</summary>
    public double[] Varied { get; } = new double[BlowFeatures.Sectors];

    /// <summary>Gets the <see cref="BlowFeatures"/> about that end; zeros where nothing repeated and there was nothing to look into.</summary>
    public double[] End { get; } = new double[BlowFeatures.Count];

    /// <summary>Gets the same about the other end.</summary>
    public double[] OtherEnd { get; } = new double[BlowFeatures.Count];

    /// <summary>Gets or sets minus the common logarithms of the probabilities that chance makes all cycles, every second, every third alike.</summary>
    public (double Locked, double Second, double Third) Evidence { get; set; }

    /// <summary>Gets or sets the number of cycles between contacts; 0 where there is no fixed one.</summary>
    public int Period { get; set; }

    /// <summary>Gets or sets whether a strike of 30 % and more cannot be ruled out by the window alone.</summary>
    public bool Possible { get; set; }

    /// <summary>Copies what another window showed.</summary>
    public void Keep(HeardBlows other)
    {
        other.Varied.CopyTo(Varied, 0);
        other.End.CopyTo(End, 0);
        other.OtherEnd.CopyTo(OtherEnd, 0);
        (Evidence, Period, Possible) = (other.Evidence, other.Period, other.Possible);
    }
}
