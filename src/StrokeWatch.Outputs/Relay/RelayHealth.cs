namespace StrokeWatch.Outputs.Relay;

/// <summary>How the relay stands at one instant.</summary>
/// <param name="Line">The chip and the line, as the notes name them.</param>
/// <param name="Energised">Whether it is energised, which says that all is well; null while its line cannot be used.</param>
/// <param name="Trouble">What is wrong and what to do, in a sentence; null where nothing is.</param>
public sealed record RelayHealth(string Line, bool? Energised, string? Trouble);
