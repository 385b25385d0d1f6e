using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated.Faults;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>What a simulated run truly was, free of noise: what a measurement of its capture is judged by.</summary>
public sealed record SimulationTruth
{
    /// <summary>Gets the scenario's name.</summary>
    public required string Scenario { get; init; }

    /// <summary>Gets the seed.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Gets the true length in seconds.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Gets the rate in Hz that the capture states.</summary>
    public required double RateHz { get; init; }

    /// <summary>Gets the samples delivered.</summary>
    public required long Samples { get; init; }

    /// <summary>Gets the true mean frequency of the stroke while the feeder was on, in Hz; null where it never was.</summary>
    public required double? DriveHz { get; init; }

    /// <summary>Gets the true sampling rate over the rate that the capture's times tell, less 1, in parts per million.</summary>
    public required double SensorClockErrorPpm { get; init; }

    /// <summary>Gets the steady motion; null where the feeder never ran steadily for a whole window.</summary>
    public required TrueStroke? Stroke { get; init; }

    /// <summary>Gets the motion at each of several sensors, in the scenario's order; empty where there is one, or no whole window.</summary>
    public IReadOnlyList<TrueSensor> Sensors { get; init; } = [];

    /// <summary>Gets the tray's stroke against the body, where a sensor sits on each; null otherwise.</summary>
    public Length? Relative { get; init; }

    /// <summary>Gets the supply at the channel that takes it; null where there is none, or the feeder never ran steadily.</summary>
    public TrueSupply? Supply { get; init; }

    /// <summary>Gets the verdict that the band asks for: in-band, low, high, over-stroke, stopped or unmeasurable.</summary>
    public required string Verdict { get; init; }

    /// <summary>Gets the damped frequency of the free decay in Hz.</summary>
    public required double NaturalHz { get; init; }

    /// <summary>Gets the damping ratio of the free decay.</summary>
    public required double DampingRatio { get; init; }

    /// <summary>Gets the strikes.</summary>
    public required TrueStrikes Strikes { get; init; }

    /// <summary>Gets the times in seconds at which the feeder was switched on and off, cut to the run.</summary>
    public required IReadOnlyList<(double From, double To)> On { get; init; }

    /// <summary>Gets the samples with an axis at its rail.</summary>
    public required long ClippedSamples { get; init; }

    /// <summary>Gets the faults.</summary>
    public IReadOnlyList<SimulatedFault> Faults { get; init; } = [];

    /// <summary>Gets the gaps: the time of the first lost sample in seconds, and how many were lost.</summary>
    public required IReadOnlyList<(double AtSeconds, long Missing)> Gaps { get; init; }
}
