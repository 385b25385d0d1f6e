using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Sources;

/// <summary>What a source says of itself before its first sample.</summary>
public sealed record SourceInfo
{
    /// <summary>Gets the format or device, in one word: <c>csv</c>, <c>wav</c>, <c>frames</c>…</summary>
    public required string Format { get; init; }

    /// <summary>Gets the axis of each channel.</summary>
    public required IReadOnlyList<Axis> Axes { get; init; }

    /// <summary>Gets the place of each channel's sensor, each sensor's channels side by side; empty where there is one sensor.</summary>
    public IReadOnlyList<SensorPlace> Places { get; init; } = [];

    /// <summary>Gets the rate in Hz; null where nothing says it.</summary>
    public double? RateHz { get; init; }

    /// <summary>Gets where the rate comes from.</summary>
    public RateOrigin RateFrom { get; init; }

    /// <summary>Gets the unit in which the source gives its samples (blocks hold m/s² all the same).</summary>
    public AccelerationUnit Unit { get; init; }

    /// <summary>Gets the sensor's full scale in m/s², either sign; null where unknown.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets the size in m/s² from which a sample stands at an end of the file's own range of numbers; null where that range has no end to speak of.</summary>
    public double? NumberRail { get; init; }

    /// <summary>Gets what the time column shows; null where there is none.</summary>
    public TimestampStatistics? TimeStamps { get; init; }

    /// <summary>Gets the rate in Hz that the file's header states beside its time column, whether or not it is believed; null where it states none.</summary>
    public double? HeaderRateHz { get; init; }

    /// <summary>Gets when the first sample was taken, as the capture itself says; null where it does not.</summary>
    public DateTimeOffset? Recorded { get; init; }

    /// <summary>Gets whether the supply's voltage is captured beside the axes, in volts or in a unit that only the feeder file knows.</summary>
    public bool HasSupply { get; init; }

    /// <summary>Gets the size from which a value of the supply's channel stands at an end of its own range, in the channel's unit; null where that has no end to speak of.</summary>
    public double? SupplyRail { get; init; }

    /// <summary>Gets what was guessed, one sentence each, for the user to confirm.</summary>
    public IReadOnlyList<string> Guesses { get; init; } = [];
}
