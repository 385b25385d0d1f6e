namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// The contributions to a stroke's uncertainty that the signal itself cannot tell; their sum is worked out once, so that a window costs nothing.
/// Source of the method: JCGM 100:2008 (GUM), equation 10 and the stroke model D = 2a/(2πf)²/cos θ.
/// </summary>
public sealed class StrokeContributions
{
    /// <summary>Name of what the sensor's sensitivity contributes.</summary>
    public const string Sensitivity = "sensitivity";

    /// <summary>Name of what the drive frequency contributes: twice its own relative uncertainty.</summary>
    public const string Frequency = "drive-frequency";

    /// <summary>Name of what the angle between sensor and line of action contributes.</summary>
    public const string Alignment = "alignment";

    /// <summary>Name of what the sensor's axes hear of each other.</summary>
    public const string CrossAxis = "cross-axis";

    /// <summary>Name of what unsteady sampling takes off the amplitude.</summary>
    public const string TimingJitter = "timing-jitter";

    /// <summary>Name of what a cut at a rail that cannot be seen may take off, the sensor's range being unknown.</summary>
    public const string HiddenCut = "hidden-cut";

    /// <summary>Half-width of the sensitivity tolerance assumed where neither calibration nor datasheet value is given (common practice, no source).</summary>
    public const double AssumedTolerance = 0.02;

    /// <summary>What is assumed where nothing is known of sensor and feeder: a sensor right within <see cref="AssumedTolerance"/>, a drive on a large grid (0.02 %, common practice, no source), a line found.</summary>
    private static readonly StrokeContribution[] Assumed =
    [
        new(Sensitivity, Uncertainty.Distributions.Rectangular(AssumedTolerance), double.PositiveInfinity, "assumed within 2 %, rectangular (common practice, no source)"),
        new(Frequency, 2 * 2e-4, double.PositiveInfinity, "mains, 0.02 % counted twice (common practice for a large grid, no source)"),
        new(Alignment, 1e-3, double.PositiveInfinity, "line of action found from the motion, 0.1 % (common practice, no source)"),
    ];

    /// <summary>Makes the assumptions that hold where nothing is known.</summary>
    public StrokeContributions()
        : this(Assumed, sensitivityAssumed: true)
    {
    }

    /// <summary>Makes them from a list.</summary>
    /// <param name="items">Independent contributions, each name once.</param>
    /// <param name="sensitivityAssumed">Whether the sensitivity is neither calibrated nor stated.</param>
    public StrokeContributions(IReadOnlyList<StrokeContribution> items, bool sensitivityAssumed)
    {
        Items = items;
        SensitivityAssumed = sensitivityAssumed;
        Combined = Math.Sqrt(items.Sum(item => item.Relative * item.Relative));
    }

    /// <summary>Gives the same with one contribution in place of that of its name, or beside the others.</summary>
    public StrokeContributions With(StrokeContribution item) =>
        new(Items.Any(own => own.Name == item.Name) ? [.. Items.Select(own => own.Name == item.Name ? item : own)] : [.. Items, item], SensitivityAssumed);

    /// <summary>Gives the same with what a cut that cannot be seen takes off at most.</summary>
    /// <param name="share">That share of the stroke, 0 or more; 0 adds nothing.</param>
    public StrokeContributions Hiding(double share) => share <= 0 ? this : With(new(
        HiddenCut, Uncertainty.Distributions.Rectangular(share), double.PositiveInfinity,
        "the sensor's range is not stated (full_scale_g): the most that a cut at its rails which noise and the waveform's shape hide takes off, rectangular"));

    /// <summary>Gets none at all, so that the signal's own noise is left alone.</summary>
    public static StrokeContributions None { get; } = new([], sensitivityAssumed: false);

    /// <summary>Gets the contributions.</summary>
    public IReadOnlyList<StrokeContribution> Items { get; }

    /// <summary>Gets whether the sensitivity was assumed, not calibrated or stated.</summary>
    public bool SensitivityAssumed { get; }

    /// <summary>Gets the root sum of squares of all of them, as a relative standard uncertainty.</summary>
    public double Combined { get; }
}
