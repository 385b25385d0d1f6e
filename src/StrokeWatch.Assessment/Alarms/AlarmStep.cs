namespace StrokeWatch.Assessment.Alarms;

/// <summary>One step of an alarm's life: a row of the journal.</summary>
/// <param name="Id">The alarm.</param>
/// <param name="Act">What happened.</param>
/// <param name="From">Its state before.</param>
/// <param name="To">Its state after.</param>
/// <param name="Beneath">The state that it would be in were it not put aside, suppressed or out of service; the same as <paramref name="To"/> where it is not.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="By">The person, or what of the program.</param>
/// <param name="Words">What was said of it.</param>
/// <param name="Until">When the shelf ends, in UTC; null where it is not shelved.</param>
public sealed record AlarmStep(
    AlarmId Id, AlarmAct Act, AlarmState From, AlarmState To, AlarmState Beneath, DateTimeOffset At, string By, string Words, DateTimeOffset? Until)
{
    /// <summary>Gets whether the step asks for a person: the alarm becomes unacknowledged where people see it.</summary>
    public bool Announces => To == AlarmState.Unacknowledged && From != AlarmState.Unacknowledged;
}
