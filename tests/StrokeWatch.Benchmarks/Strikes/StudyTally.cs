namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>The scores of the windows of one kind at one rate and drive.</summary>
internal sealed class StudyTally
{
    private readonly List<double> scores = [];

    /// <summary>Gets the number of windows.</summary>
    public int Windows => scores.Count;

    /// <summary>Gets how many could be judged or were called.</summary>
    public int Judged => scores.Count(score => !double.IsNaN(score));

    /// <summary>Gets how many were called.</summary>
    public int Called => At(1);

    /// <summary>Gets the scores, NaN where a window could not be judged.</summary>
    public IReadOnlyList<double> Scores => scores;

    /// <summary>Gets how many were neither called nor ruled out.</summary>
    public int Possible { get; private set; }

    /// <summary>Gets how many were judged, and nothing was called nor left possible.</summary>
    public int RuledOut => Judged - Called - Possible;

    /// <summary>Takes a window's score, null where it could not be judged, and whether it left a strike possible.</summary>
    public void Take(double? score, bool possible)
    {
        scores.Add(score ?? double.NaN);
        Possible += possible ? 1 : 0;
    }

    /// <summary>Takes the windows of another tally.</summary>
    public void Take(StudyTally other)
    {
        scores.AddRange(other.scores);
        Possible += other.Possible;
    }

    /// <summary>Gives how many would be called at a threshold.</summary>
    public int At(double threshold) => scores.Count(score => score >= threshold);
}
