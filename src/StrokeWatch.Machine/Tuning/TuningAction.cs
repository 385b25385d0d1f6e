namespace StrokeWatch.Machine.Tuning;

/// <summary>What to do next.</summary>
public enum TuningAction
{
    /// <summary>Nothing: the measured stroke lies in its band.</summary>
    None,

    /// <summary>Put in another rear stack.</summary>
    ChangeRearStack,

    /// <summary>Bring the feeder back to the normal side first: stiffen the rear stack, or take weight off the tray.</summary>
    AddStiffnessOrLightenTray,

    /// <summary>Measure what is missing before any leaf is changed.</summary>
    MeasureFirst,

    /// <summary>No stack of the leaves at hand brings the stroke into its band.</summary>
    NoStackFits,
}
