using StrokeWatch.Measurement.Features;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Windows;

/// <summary>What was measured in one window of whole cycles; what could not be measured is null, with the reason.</summary>
public readonly record struct WindowReading
{
    /// <summary>Gets the start in seconds from the first sample.</summary>
    public required double StartSeconds { get; init; }

    /// <summary>Gets the length in seconds.</summary>
    public required double LengthSeconds { get; init; }

    /// <summary>Gets whether the window counts, and if not, why.</summary>
    public required WindowQuality Quality { get; init; }

    /// <summary>Gets what the feeder does.</summary>
    public required MotionState Motion { get; init; }

    /// <summary>Gets why there is no stroke, or why it does not count; null where it does.</summary>
    public string? Reason { get; init; }

    /// <summary>Gets whether the sensor gave the same value on every axis through the whole window: a dead sensor, for one at rest still has noise.</summary>
    public bool Stuck { get; init; }

    /// <summary>Gets the drive frequency in Hz (locked to the mains, or measured).</summary>
    public double? FrequencyHz { get; init; }

    /// <summary>Gets the error of the sensor's clock, relative (true rate over stated rate, minus one), by the mains, or for a free drive by the time stamps; null where neither tells.</summary>
    public double? ClockError { get; init; }

    /// <summary>Gets the peak-to-peak displacement of the whole waveform along the line of action, in metres.</summary>
    public double? StrokeMetres { get; init; }

    /// <summary>Gets the peak-to-peak displacement of the fundamental alone along the line of action, in metres.</summary>
    public double? FundamentalMetres { get; init; }

    /// <summary>Gets the least that the tray moves, peak to peak in metres, where the sensor clips, or may clip, and the stroke itself cannot be told.</summary>
    public double? AtLeastMetres { get; init; }

    /// <summary>Takes the stroke away where nobody can tell whether it is cut.</summary>
    internal WindowReading LeftOpen(double? atLeastMetres) => this with
    {
        Quality = WindowQuality.Noisy,
        Reason = "each cycle is flat at its top or bottom, as a sensor's rail would cut it, and the sensor's range is not stated",
        StrokeMetres = null,
        FundamentalMetres = null,
        UncertaintyMetres = null,
        AtLeastMetres = atLeastMetres,
    };

    /// <summary>Carries in the uncertainty what a cut that cannot be seen may take off.</summary>
    internal WindowReading Hiding(double share) => share <= 0 || StrokeMetres is not { } stroke ? this : this with
    {
        HiddenCut = share,
        UncertaintyMetres = 2 * double.Hypot(0.5 * (UncertaintyMetres ?? 0), Measurement.Uncertainty.Distributions.Rectangular(share) * stroke),
    };

    /// <summary>Gets whether the sensor may clip, which its range, that is not stated, would tell: no sample is known to be at a rail, yet there is no stroke.</summary>
    public bool MayBeClipped => StrokeMetres is null && AtLeastMetres is not null && ClippedSamples == 0;

    /// <summary>Gets the expanded uncertainty (k = 2) of the stroke, in metres.</summary>
    public double? UncertaintyMetres { get; init; }

    /// <summary>Gets the most that a cut at a rail which cannot be seen, the sensor's range being unknown, takes off the stroke, as a share of it; <see cref="UncertaintyMetres"/> holds it as a rectangle.</summary>
    public double HiddenCut { get; init; }

    /// <summary>Gets the part of the standard uncertainty (k = 1) that noise makes, in metres; it alone shrinks when windows are averaged.</summary>
    public double? NoiseMetres { get; init; }

    /// <summary>Gets the line of action above the x axis in the x-z plane, in degrees from -90 to 90.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets the minor over the major axis of the fundamental's ellipse, 0 to 1.</summary>
    public double? EllipseRatio { get; init; }

    /// <summary>Gets whether armature strike was found.</summary>
    public bool Strike { get; init; }

    /// <summary>Gets the strike score, log10 of the false-alarm probability over that of the threshold, so that 1 is the threshold; null where it could not be judged.</summary>
    public double? StrikeScore { get; init; }

    /// <summary>Gets whether a strike is called because windows before this one called it and this one still leaves it suspected; by itself it would call none.</summary>
    public bool StrikeCarried { get; init; }

    /// <summary>
    /// Gets whether no strike was called and yet one cannot be ruled out: of the strikes of 30 % of the magnet's peak pull and more that the trees were grown on, one in a thousand at
    /// most is neither called nor possible. False where a strike was called, and where it could not be judged.
    /// </summary>
    public bool StrikePossible { get; init; }

    /// <summary>Gets orders and noise beside the stroke, of several sensors those of the one that leads; null where the window does not count.</summary>
    public OrderLevels? Levels { get; init; }

    /// <summary>Gets in which rhythm the armature strikes: 1 in every cycle, 2 in every second, 3 in every third; null where no strike was found, or in no fixed rhythm.</summary>
    public int? StrikeEvery { get; init; }

    /// <summary>Gets whether the samples' own times were used in place of even spacing.</summary>
    public bool Timed { get; init; }

    /// <summary>Gets what the supply's channel showed; null where none is captured. It is not kept in an <c>AssessmentReport</c>'s list of windows.</summary>
    public Supply.SupplyReading? Supply { get; init; }

    /// <summary>Gets what is left to be listened to, by a <see cref="WindowEar"/>; null where that is done, or there is nothing to hear. It is gone before the window is assessed.</summary>
    public KeptLine? Unheard { get; init; }

    /// <summary>Gets how many samples stand at the sensor's rail.</summary>
    public int ClippedSamples { get; init; }

    /// <summary>Gets the largest stroke of a sensor on the tray, in metres, where the stroke is the mean of several; null otherwise.</summary>
    public double? LargestMetres { get; init; }

    /// <summary>Gets the most that any place on the tray is known to move, in metres: the largest stroke, or what a sensor at its rail moves at least.</summary>
    public double? PeakMetres => (LargestMetres ?? StrokeMetres) is { } stroke ? Math.Max(stroke, AtLeastMetres ?? 0) : AtLeastMetres;

    /// <summary>Gets the place of the largest stroke.</summary>
    public SensorPlace? LargestPlace { get; init; }

    /// <summary>Gets the place of the first of several sensors that gives nothing to be used, though others do; null where there is none.</summary>
    public SensorPlace? FailingPlace { get; init; }
}
