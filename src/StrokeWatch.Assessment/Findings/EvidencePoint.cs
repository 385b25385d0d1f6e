namespace StrokeWatch.Assessment.Findings;

/// <summary>One value of a finding's evidence.</summary>
/// <param name="Name">Whose value it is; empty over time.</param>
/// <param name="AtSeconds">When, in seconds from the capture's start; 0 where the values have names.</param>
/// <param name="Value">The value in the plot's unit; null where there is none, which breaks the line.</param>
public readonly record struct EvidencePoint(string Name, double AtSeconds, double? Value);
