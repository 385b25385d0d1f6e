namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>How likely a cause is in the light of the evidence.</summary>
/// <param name="Cause">The cause; null where the machine is healthy.</param>
/// <param name="Share">Its share of the probability, 0 to 1.</param>
/// <param name="Pattern">The way in which it shows.</param>
internal readonly record struct CauseShare(ICause? Cause, double Share, IReadOnlyDictionary<string, Change>? Pattern);
