namespace StrokeWatch.Assessment.Baselines;

/// <summary>What became of readings offered to a learner.</summary>
public enum LearningOutcome
{
    /// <summary>They were taken.</summary>
    Taken,

    /// <summary>The feeder had an alarm: what is wrong must not be learned as healthy.</summary>
    Alarm,

    /// <summary>They are not later than those before.</summary>
    NotLater,

    /// <summary>None of them is a number, or none can be kept beside those already followed.</summary>
    Nothing,

    /// <summary>Enough is known already.</summary>
    Complete,
}
