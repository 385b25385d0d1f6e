namespace StrokeWatch.Sensors.Chips;

/// <summary>A range that a chip can be set to.</summary>
/// <param name="FullScaleG">Full scale in g, either sign.</param>
/// <param name="CountsPerG">Nominal sensitivity in counts per g.</param>
/// <param name="Code">The bits that select it.</param>
public readonly record struct ChipRange(double FullScaleG, double CountsPerG, byte Code)
{
    /// <summary>Gets the counts at full scale.</summary>
    public int Rail => (int)Math.Round(FullScaleG * CountsPerG);
}
