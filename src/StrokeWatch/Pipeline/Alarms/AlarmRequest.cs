using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>What a person asks of an alarm.</summary>
/// <param name="Id">The alarm.</param>
/// <param name="Act">One of those that are a person's.</param>
/// <param name="By">Who; not empty.</param>
/// <param name="For">For how long to shelve; null for all other acts.</param>
/// <param name="Words">Why; may be empty.</param>
internal sealed record AlarmRequest(AlarmId Id, AlarmAct Act, string By, TimeSpan? For = null, string Words = "")
{
    /// <summary>Gets whether the act is one that a person may ask for.</summary>
    public bool IsPersons => Act is AlarmAct.Acknowledge or AlarmAct.Reset or AlarmAct.Shelve or AlarmAct.Unshelve or AlarmAct.TakeOutOfService or AlarmAct.ReturnToService;
}
