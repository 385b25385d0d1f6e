namespace StrokeWatch.Assessment.Alarms;

/// <summary>How soon an alarm needs somebody.</summary>
public enum AlarmPriority
{
    /// <summary>Within the shift.</summary>
    Low,

    /// <summary>Within the hour.</summary>
    Medium,

    /// <summary>At once: the machine is being damaged.</summary>
    High,
}
