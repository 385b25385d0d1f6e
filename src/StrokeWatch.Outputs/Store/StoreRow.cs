using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Outputs.Store;

/// <summary>A row on its way into the database, and the promise given for it.</summary>
internal abstract class StoreRow(DateTimeOffset utc)
{
    private readonly TaskCompletionSource<bool> confirmed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Gets the instant the row is about.</summary>
    public DateTimeOffset Utc { get; } = utc;

    /// <summary>Gets the promise: true once the row is committed, false where it was dropped.</summary>
    public Task<bool> Confirmed => confirmed.Task;

    /// <summary>Keeps or breaks the promise.</summary>
    public void Settle(bool committed) => confirmed.TrySetResult(committed);
}

/// <summary>A window with its verdict.</summary>
internal sealed class WindowRow(DateTimeOffset utc, WindowReading reading, Verdict verdict) : StoreRow(utc)
{
    /// <summary>Gets what was measured.</summary>
    public WindowReading Reading { get; } = reading;

    /// <summary>Gets where the stroke lies.</summary>
    public Verdict Verdict { get; } = verdict;
}

/// <summary>An alarm raised or cleared.</summary>
internal sealed class AlarmRow(DateTimeOffset utc, AlarmTransition transition) : StoreRow(utc)
{
    /// <summary>Gets the transition.</summary>
    public AlarmTransition Transition { get; } = transition;
}

/// <summary>A step of an alarm's life.</summary>
internal sealed class JournalRow(AlarmStep step) : StoreRow(step.At)
{
    /// <summary>Gets the step.</summary>
    public AlarmStep Step { get; } = step;
}

/// <summary>A capture of what was measured around an alarm.</summary>
internal sealed class CaptureRow(AlarmWaveform waveform) : StoreRow(waveform.At)
{
    /// <summary>Gets the capture.</summary>
    public AlarmWaveform Waveform { get; } = waveform;
}

/// <summary>A capture that was removed to make room.</summary>
internal sealed class CaptureGoneRow(DateTimeOffset utc, string file) : StoreRow(utc)
{
    /// <summary>Gets the capture's name.</summary>
    public string File { get; } = file;
}

/// <summary>An event.</summary>
internal sealed class EventRow(DateTimeOffset utc, StoreEventKind kind, string text) : StoreRow(utc)
{
    /// <summary>Gets what happened.</summary>
    public StoreEventKind Kind { get; } = kind;

    /// <summary>Gets what happened, for people.</summary>
    public string Text { get; } = text;
}

/// <summary>A stretch of running summed up.</summary>
internal sealed class StretchRow(Stretch stretch) : StoreRow(stretch.From)
{
    /// <summary>Gets the stretch.</summary>
    public Stretch Stretch { get; } = stretch;
}

/// <summary>A finding raised or cleared.</summary>
internal sealed class FindingRow(FindingTransition transition) : StoreRow(transition.At)
{
    /// <summary>Gets the transition.</summary>
    public FindingTransition Transition { get; } = transition;
}
