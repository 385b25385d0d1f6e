namespace StrokeWatch.Assessment.Alarms;

/// <summary>One alarm with an on-delay and an off-delay, stepped by intervals of time; an interval that cannot tell leaves it as it is.</summary>
/// <remarks>Semantics of OnDelay and OffDelay as in OPC UA Part 9, annex B: the condition must hold, or be gone, without a break.</remarks>
public sealed class DelayedAlarm(double onSeconds, double offSeconds)
{
    private double pending;

    /// <summary>Gets whether the alarm is active.</summary>
    public bool Active { get; private set; }

    /// <summary>Steps the alarm over an interval; true where it was raised or cleared at the interval's end.</summary>
    /// <param name="condition">True where the condition holds, false where not, null where it cannot be told.</param>
    /// <param name="seconds">Length of the interval.</param>
    public bool Step(bool? condition, double seconds)
    {
        if (condition is not { } holds)
        {
            return false;
        }

        if (holds == Active)
        {
            pending = 0;
            return false;
        }

        pending += seconds;
        if (pending < (Active ? offSeconds : onSeconds))
        {
            return false;
        }

        pending = 0;
        Active = !Active;
        return true;
    }
}
