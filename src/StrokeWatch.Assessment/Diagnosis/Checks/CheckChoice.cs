namespace StrokeWatch.Assessment.Diagnosis.Checks;

/// <summary>One thing that may be found at a guided check, and what it tells.</summary>
/// <param name="Id">Its id, which never changes.</param>
/// <param name="Words">What to answer, in a few words.</param>
/// <param name="Found">What was found, as a sentence that begins with "You found".</param>
/// <param name="Tells">What it supports or rules out, and what to do about it.</param>
/// <param name="Otherwise">How probable it is on a machine with any cause that is not named, 0 to 1.</param>
/// <param name="Given">How probable it is given a cause, by the cause's id or <see cref="CheckTable.Healthy"/>.</param>
public sealed record CheckChoice(string Id, string Words, string Found, string Tells, double Otherwise, IReadOnlyDictionary<string, double> Given)
{
    /// <summary>What a fault makes this much likelier than health does is a sign of it.</summary>
    private const double Telling = 3;

    /// <summary>Gets whether it is a sign of a fault.</summary>
    public bool IsFault => Given.Any(row => row.Key != CheckTable.Healthy && row.Value > Telling * Probability(CheckTable.Healthy));

    /// <summary>Gives how probable it is given a cause; health is <see cref="CheckTable.Healthy"/>.</summary>
    public double Probability(string cause) => Given.GetValueOrDefault(cause, Otherwise);
}
