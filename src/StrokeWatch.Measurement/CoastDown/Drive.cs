namespace StrokeWatch.Measurement.CoastDown;

/// <summary>The drive beside which a transient is read.</summary>
/// <param name="CyclesPerSample">Its frequency in cycles a sample.</param>
/// <param name="Hz">Its frequency in Hz.</param>
/// <param name="RelativeDeviation">Relative standard uncertainty of the latter.</param>
internal readonly record struct Drive(double CyclesPerSample, double Hz, double RelativeDeviation)
{
    /// <summary>Gets what is known of the magnet that is on after a start; null where its pull is known not to go with the gap.</summary>
    public RunningMagnet? Magnet { get; init; }
}
