namespace StrokeWatch.Assessment.Findings;

/// <summary>What a rule found wrong, and what to check first.</summary>
/// <param name="Id">The rule's id.</param>
/// <param name="Confidence">0 to 1.</param>
/// <param name="Because">The evidence, in sentences with numbers.</param>
/// <param name="CheckFirst">What to check, the quickest safe check first.</param>
public sealed record Finding(string Id, double Confidence, IReadOnlyList<string> Because, IReadOnlyList<string> CheckFirst)
{
    /// <summary>Gets the evidence as something to look at; null where numbers say all.</summary>
    public EvidencePlot? Plot { get; init; }
}
