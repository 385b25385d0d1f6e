namespace StrokeWatch.Sensors.Frames;

/// <summary>How a frame follows the one before.</summary>
/// <param name="Accepted">False where the frame was seen before.</param>
/// <param name="Gap">True where samples are lost between them.</param>
/// <param name="Missing">The samples lost; null where nobody knows.</param>
/// <param name="Restarted">True where the device started anew between them.</param>
internal readonly record struct FrameStep(bool Accepted, bool Gap, long? Missing, bool Restarted);
