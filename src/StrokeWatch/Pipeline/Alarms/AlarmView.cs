using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>An alarm as it stands, for people.</summary>
/// <param name="Id">The alarm.</param>
/// <param name="Priority">How soon it needs somebody.</param>
/// <param name="State">Its state.</param>
/// <param name="Beneath">Its state beneath shelf, suppression and being out of service.</param>
/// <param name="Since">When it came into that state, in UTC.</param>
/// <param name="By">Who or what brought it there.</param>
/// <param name="Until">When its shelf ends, in UTC; null where it is not shelved.</param>
/// <param name="Words">What was last said of it.</param>
internal sealed record AlarmView(
    AlarmId Id, AlarmPriority Priority, AlarmState State, AlarmState Beneath, DateTimeOffset Since, string By, DateTimeOffset? Until, string Words)
{
    /// <summary>The most steps that a view tells; the journal holds all.</summary>
    public const int MostSteps = 12;

    /// <summary>Gets the newest steps since it last left the normal state, in order, each with who or what took it.</summary>
    public IReadOnlyList<AlarmStep> Steps { get; init; } = [];

    /// <summary>Gives an alarm as it stands after a step.</summary>
    /// <param name="before">As it stood; null where nothing had happened to it.</param>
    /// <param name="step">The step.</param>
    /// <param name="priority">Its priority.</param>
    public static AlarmView After(AlarmView? before, AlarmStep step, AlarmPriority priority)
    {
        IEnumerable<AlarmStep> earlier = before is null || before.State == AlarmState.Normal ? [] : before.Steps;
        return new(step.Id, priority, step.To, step.Beneath, step.At, step.By, step.Until, step.Words.Length > 0 ? step.Words : before?.Words ?? "")
        {
            Steps = [.. earlier.TakeLast(MostSteps - 1), step],
        };
    }

    /// <summary>Gets whether it stands where people see it.</summary>
    public bool Stands => State is AlarmState.Unacknowledged or AlarmState.Acknowledged;
}
