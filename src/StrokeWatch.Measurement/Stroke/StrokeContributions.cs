namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The contributions to a stroke's uncertainty that the signal itself cannot tell, as relative standard uncertainties (k = 1) of the stroke.
/// Source of the method: JCGM 100:2008 (GUM), equation 10 and the stroke model D = 2a/(2πf)²/cos θ.
/// </summary>
public sealed record StrokeContributions
{
    /// <summary>Gets the half-width of the sensitivity tolerance assumed where neither calibration nor datasheet value is given (common practice, no source).</summary>
    public const double AssumedTolerance = 0.02;

    /// <summary>Gets the sensor's sensitivity.</summary>
    public double Sensitivity { get; init; } = AssumedTolerance / 1.7320508075688772;

    /// <summary>Gets whether the sensitivity was assumed, not calibrated or stated.</summary>
    public bool SensitivityAssumed { get; init; } = true;

    /// <summary>Gets the drive frequency: twice its own relative uncertainty. The default is for the mains: 0.02 % (common practice for a large grid, no source).</summary>
    public double Frequency { get; init; } = 2 * 2e-4;

    /// <summary>Gets the alignment with the line of action.</summary>
    public double Alignment { get; init; } = 1e-3;

    /// <summary>Gets the root sum of squares of all of them.</summary>
    public double Combined => Math.Sqrt(Sensitivity * Sensitivity + Frequency * Frequency + Alignment * Alignment);
}
