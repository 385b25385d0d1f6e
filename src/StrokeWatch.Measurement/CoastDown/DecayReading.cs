namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The free decay of the feeder, from a stop or from the beat of a start.</summary>
/// <param name="StartSeconds">Start of the decay, in seconds from the first sample.</param>
/// <param name="NaturalFrequencyHz">Frequency of the free decay itself (damped), in Hz.</param>
/// <param name="DampingRatio">Damping ratio, 0 to 1.</param>
/// <param name="FrequencyUncertaintyHz">Expanded uncertainty (k = 2) of the frequency, in Hz.</param>
public readonly record struct DecayReading(
    double StartSeconds, double NaturalFrequencyHz, double DampingRatio, double FrequencyUncertaintyHz)
{
    /// <summary>Gets the expanded uncertainty (k = 2) of the damping ratio.</summary>
    public double DampingUncertainty { get; init; }

    /// <summary>Gets the frequency of the drive before the stop or after the start, in Hz.</summary>
    public double DriveHz { get; init; }

    /// <summary>Gets the transient that shows the decay.</summary>
    public TransientKind From { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the tuning ratio; the drive's own uncertainty, which both frequencies share, is not in it.</summary>
    public double TuningUncertainty { get; init; }

    /// <summary>Gets what was added to the frequency of a start for the magnet that was on, in Hz; 0 for a stop.</summary>
    public double MagnetHz { get; init; }

    /// <summary>Gets what was taken off the damping ratio of a start for the magnet.</summary>
    public double MagnetDamping { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of <see cref="MagnetHz"/>: part of that of the frequency, and alike in all starts of a machine.</summary>
    public double MagnetHzUncertainty { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of <see cref="MagnetDamping"/>, in the same way.</summary>
    public double MagnetDampingUncertainty { get; init; }

    /// <summary>Gets natural frequency over drive frequency.</summary>
    public double TuningRatio => NaturalFrequencyHz / DriveHz;

    /// <summary>Gets the side of the tuning curve, after the uncertainty.</summary>
    public TuningSide Side => TuningRatio - 1 > TuningUncertainty ? TuningSide.Normal : 1 - TuningRatio > TuningUncertainty ? TuningSide.Reverse : TuningSide.Unknown;
}
