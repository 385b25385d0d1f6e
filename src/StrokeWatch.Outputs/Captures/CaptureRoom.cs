namespace StrokeWatch.Outputs.Captures;

/// <summary>What the captures of alarms in a folder take, with what lies beside them.</summary>
/// <param name="Captures">How many there are.</param>
/// <param name="Bytes">What they take together.</param>
/// <param name="Kept">How many of them are never removed to make room.</param>
/// <param name="KeptBytes">What those take.</param>
public sealed record CaptureRoom(int Captures, long Bytes, int Kept, long KeptBytes);
