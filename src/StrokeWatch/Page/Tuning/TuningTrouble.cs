namespace StrokeWatch.Page.Tuning;

/// <summary>Why something asked of the tuning session is not done.</summary>
/// <param name="Status">The status of the answer.</param>
/// <param name="Sentence">What and what to do.</param>
internal sealed record TuningTrouble(int Status, string Sentence);
