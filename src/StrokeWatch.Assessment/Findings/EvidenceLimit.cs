namespace StrokeWatch.Assessment.Findings;

/// <summary>A limit in the plot of a finding's evidence.</summary>
/// <param name="Words">What lies there.</param>
/// <param name="Value">The value in the plot's unit.</param>
public readonly record struct EvidenceLimit(string Words, double Value);
