using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page.Captures;

/// <summary>A capture in the list.</summary>
/// <param name="File">The file.</param>
/// <param name="Alarms">The alarms whose waveform it is; empty where it was made otherwise.</param>
/// <param name="Keep">Whether it may be removed to make room.</param>
/// <param name="KeepWords">Who keeps it and why; null where nobody does, or nothing is known of it.</param>
internal sealed record ListedCapture(FileInfo File, IReadOnlyList<AlarmWaveform> Alarms, CaptureKeep Keep, string? KeepWords);
