using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>Where each step of an alarm's life is written before it takes effect.</summary>
internal interface IAlarmJournal
{
    /// <summary>Gets what is wrong with the place, in a sentence; null where nothing is.</summary>
    string? Trouble { get; }

    /// <summary>Gets whether it takes steps already; at the start it may still be opened and checked.</summary>
    bool Ready { get; }

    /// <summary>Takes a step; the task answers true once it is safely written, false where it never will be.</summary>
    Task<bool> Write(AlarmStep step);
}
