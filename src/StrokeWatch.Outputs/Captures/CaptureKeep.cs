namespace StrokeWatch.Outputs.Captures;

/// <summary>Whether a capture may be removed to make room.</summary>
public enum CaptureKeep
{
    /// <summary>It is the waveform of an alarm or of a trial, and goes when it is the oldest and room is needed.</summary>
    No,

    /// <summary>Somebody keeps it: a file NAME.keep lies beside it.</summary>
    Kept,

    /// <summary>It is never removed: the configuration keeps it, or it is neither.</summary>
    Always,
}
