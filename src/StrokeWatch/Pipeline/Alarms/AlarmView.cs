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
    /// <summary>Gets whether it stands where people see it.</summary>
    public bool Stands => State is AlarmState.Unacknowledged or AlarmState.Acknowledged;
}
