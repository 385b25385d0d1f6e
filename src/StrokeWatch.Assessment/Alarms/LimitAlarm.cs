namespace StrokeWatch.Assessment.Alarms;

/// <summary>A high-limit alarm counted in samples: raised after some consecutive values above the limit, cleared after some below the limit less the deadband.</summary>
/// <remarks>Semantics of on-delay, off-delay and deadband as in OPC UA Part 9, annex B.</remarks>
public sealed class LimitAlarm(double limit, double deadband, int onCount, int offCount)
{
    private int pending;

    /// <summary>Gets whether the alarm is active.</summary>
    public bool Active { get; private set; }

    /// <summary>Takes the next value and says whether the alarm is active after it.</summary>
    public bool Step(double value)
    {
        var towards = Active ? value < limit - deadband : value > limit;
        pending = towards ? pending + 1 : 0;
        if (pending >= (Active ? offCount : onCount))
        {
            Active = !Active;
            pending = 0;
        }

        return Active;
    }
}
