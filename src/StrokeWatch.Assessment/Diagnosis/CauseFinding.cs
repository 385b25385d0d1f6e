namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>A cause that a machine's history points to, and how to get hold of it.</summary>
/// <param name="Id">The cause's id.</param>
/// <param name="Words">What is wrong.</param>
/// <param name="Confidence">Its share of the probability among all causes and health, 0 to 1; no more than the model of the symptoms is worth.</param>
/// <param name="Physics">Why it shows as it does.</param>
/// <param name="Because">The evidence, in sentences with numbers, the strongest first.</param>
/// <param name="CheckFirst">What to check, the quickest safe check first.</param>
/// <param name="Confirm">What would confirm or refute it.</param>
/// <param name="TellApart">With which other cause it can be confused, and what would tell; null where it stands alone.</param>
/// <param name="Evidence">The symptoms behind the sentences.</param>
public sealed record CauseFinding(
    string Id, string Words, double Confidence, string Physics, IReadOnlyList<string> Because, IReadOnlyList<string> CheckFirst, string Confirm,
    string? TellApart, IReadOnlyList<SymptomReading> Evidence);
