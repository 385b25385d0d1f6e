using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Alarms;

/// <summary>How long a condition must hold before its alarm is raised, and be gone before it is cleared. Ranges 0 to 3600 s.</summary>
/// <remarks>The defaults are engineering judgement: what damages the machine is raised after two windows, what only feeds badly later.</remarks>
public sealed record AlarmDelays
{
    /// <summary>Gets the on-delay of over-stroke and strike in seconds; 0.9 makes it two windows of half a second.</summary>
    public double DangerOn { get; init; } = 0.9;

    /// <summary>Gets the off-delay of over-stroke and strike in seconds.</summary>
    public double DangerOff { get; init; } = 3;

    /// <summary>Gets the on-delay of high and low stroke in seconds.</summary>
    public double BandOn { get; init; } = 2;

    /// <summary>Gets the off-delay of high and low stroke in seconds.</summary>
    public double BandOff { get; init; } = 3;

    /// <summary>Gets the on-delay of a clipped sensor in seconds.</summary>
    public double ClippedOn { get; init; } = 0.9;

    /// <summary>Gets the off-delay of a clipped sensor in seconds.</summary>
    public double ClippedOff { get; init; } = 3;

    /// <summary>Gets the silence in seconds after which the sensor is called lost.</summary>
    public double SilenceOn { get; init; } = 2;

    /// <summary>Gets the time in seconds without a usable window after which the stroke is called unmeasurable.</summary>
    public double UnmeasurableOn { get; init; } = 5;

    /// <summary>Gets how far the stroke must come back past a bound before it counts as back, 0 to 1 mm; null takes half a per cent of the top of the band. Three standard deviations of the reading are the least in any case.</summary>
    public Length? Hysteresis { get; init; }
}
