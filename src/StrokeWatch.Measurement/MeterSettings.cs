using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement;

/// <summary>What the meter must know before it can measure.</summary>
public sealed record MeterSettings
{
    /// <summary>Gets the axis of each channel: 1 to 3 of them, or up to 64 of several sensors.</summary>
    public required IReadOnlyList<Axis> Axes { get; init; }

    /// <summary>Gets the sensors, where there are several, each with its part of the channels, up to fifteen of them; empty where there is one.</summary>
    public IReadOnlyList<Stations.StationSettings> Stations { get; init; } = [];

    /// <summary>Gets the rate in Hz that the source states.</summary>
    public required double RateHz { get; init; }

    /// <summary>Gets the mean rate in Hz by the clock that stamped the samples; null where it is <see cref="RateHz"/>.</summary>
    public double? StampRateHz { get; init; }

    /// <summary>Gets whether a free drive's frequency is read off the stamps' clock, not off the sensor's as <see cref="RateHz"/> states it.</summary>
    public bool StampsKeepTime { get; init; }

    /// <summary>Gets the relative error of the stated rate by the stamps' clock (true over stated, minus one); null where that keeps no time.</summary>
    internal double? StampClockError => StampsKeepTime && StampRateHz is { } stamps ? stamps / RateHz - 1 : null;

    /// <summary>Gets whether the stamps differ from even spacing by more than they round, so that they are believed until the signal contradicts them.</summary>
    public bool StampsSpread { get; init; }

    /// <summary>Gets the nominal stroke frequency in Hz.</summary>
    public required double NominalHz { get; init; }

    /// <summary>Gets whether the drive is free of the mains, so that its frequency is measured with the sensor's clock.</summary>
    public bool FreeDrive { get; init; }

    /// <summary>Gets the given line of action in degrees above the x axis; null where the vibration itself tells.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets the peak-to-peak displacement in metres below which the tray counts as standing still.</summary>
    public double StillBelowMetres { get; init; } = 0.05e-3;

    /// <summary>Gets the time in seconds that the machine's own vibration needs to die away after a start (five times its time constant); null where it is taken from the start itself.</summary>
    public double? SettleSeconds { get; init; }

    /// <summary>Gets the sensor's full scale in m/s², either sign; null where unknown.</summary>
    public double? FullScale { get; init; }

    /// <summary>Gets the contributions to the uncertainty that the signal cannot tell.</summary>
    public Stroke.StrokeContributions Contributions { get; init; } = new();

    /// <summary>Gets whether the sampling jitter is stated and stands among the contributions, so that the signal is not asked for it.</summary>
    public bool JitterStated { get; init; }

    /// <summary>Gets who hears what windows show of blows; null where nobody does.</summary>
    internal Impacts.IBlowListener? Blows { get; init; }

    /// <summary>Gets who listens to the windows of a single sensor after they were measured; null where that is done at once.</summary>
    public Windows.IListenLater? ListenLater { get; init; }

    /// <summary>Gets what is known of the magnet whose pull softens and damps what a start shows; null where the pull is known not to go with the gap.</summary>
    public CoastDown.RunningMagnet? Magnet { get; init; }

    /// <summary>Gets the channel of the supply's voltage; null where there is none.</summary>
    public Supply.SupplySettings? Supply { get; init; }

    /// <summary>Gets the lowest frequency at which the drive is looked for, as a share of the nominal one.</summary>
    internal double LowestShareOfNominal => FreeDrive ? 0.5 : 0.9;

    /// <summary>Gets the highest frequency at which the drive is looked for, as a share of the nominal one.</summary>
    internal double HighestShareOfNominal => FreeDrive ? 1.5 : 1.1;
}
