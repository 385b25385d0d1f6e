namespace StrokeWatch.Assessment.Diagnosis.Checks;

/// <summary>What somebody found at a guided check.</summary>
/// <param name="Check">The check's id.</param>
/// <param name="Choice">The id of what was found.</param>
public readonly record struct CheckFound(string Check, string Choice);
