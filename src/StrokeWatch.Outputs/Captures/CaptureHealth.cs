namespace StrokeWatch.Outputs.Captures;

/// <summary>How what keeps waveforms of alarms stands at one instant.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="Room">What it holds; null where it cannot be read.</param>
/// <param name="MostBytes">The most bytes that captures may take together.</param>
/// <param name="Writing">Captures that are being written.</param>
/// <param name="Trouble">What is wrong and what to do, in a sentence; null where nothing is.</param>
public sealed record CaptureHealth(string Folder, CaptureRoom? Room, long MostBytes, int Writing, string? Trouble);
