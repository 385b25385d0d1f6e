using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Page.Captures;

/// <summary>A capture in the list.</summary>
/// <param name="File">The file.</param>
/// <param name="Alarms">The alarms whose waveform it is; empty where it was made otherwise.</param>
internal sealed record ListedCapture(FileInfo File, IReadOnlyList<AlarmWaveform> Alarms);
