using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>What a machine shows now beside what it showed when it was healthy.</summary>
public sealed record Evidence
{
    /// <summary>How many captures the usual spread of a symptom counts for, beside the machine's own.</summary>
    private const double PriorCaptures = 4;

    private const double Failing = 10;

    /// <summary>Gets the symptoms that were measured both then and now.</summary>
    public required IReadOnlyList<SymptomReading> Readings { get; init; }

    /// <summary>Gets the symptoms that could not be measured, then or now.</summary>
    public required IReadOnlyList<Symptom> Missing { get; init; }

    /// <summary>Gets how many of the machine's own symptoms can be compared with its past.</summary>
    public int Compared => Readings.Count(reading => reading.Symptom.Healthy is null);

    /// <summary>Gets how many healthy captures there are.</summary>
    public required int HealthyCaptures { get; init; }

    /// <summary>Gets the captures that show the machine as it is now.</summary>
    public required int Captures { get; init; }

    /// <summary>Gets a symptom; null where it is missing.</summary>
    public SymptomReading? this[string id] => Readings.FirstOrDefault(reading => reading.Symptom.Id == id);

    /// <summary>Compares captures of now with healthy ones.</summary>
    /// <param name="healthy">Captures of the healthy machine.</param>
    /// <param name="now">Captures of the machine as it is now, in order of date; each counts once more than the one before.</param>
    public static Evidence Of(IReadOnlyList<CaptureFeatures> healthy, IReadOnlyList<CaptureFeatures> now)
    {
        var readings = new List<SymptomReading>();
        var missing = new List<Symptom>();
        var hammers = now.Any(features => features.StrikeScoreMedian >= 1 || features.ClippedShare > 0);
        foreach (var symptom in Symptoms.All.Where(symptom => !hammers || !Symptoms.Overlaid.Contains(symptom.Id)))
        {
            var before = healthy.Select(symptom.Of).OfType<double>().ToArray();
            var after = now.Select(symptom.Of).OfType<double>().ToArray();
            // A machine that was set up on the normal side and has left it shows that by its natural frequency.
            if (symptom.Id == Symptoms.Side && (before.Length == 0 || before.Average() > -symptom.Spread))
            {
                continue;
            }

            if (after.Length == 0 || (before.Length == 0 && symptom.Healthy is null))
            {
                missing.Add(symptom);
                continue;
            }

            readings.Add(Read(symptom, before, after));
        }

        // What a failing sensor leaves of a transient is no free decay.
        if (readings.Any(reading => reading.Symptom.Id == Symptoms.Silent && reading.Deviation > Failing))
        {
            readings.RemoveAll(reading => reading.Symptom.Id is Symptoms.Natural or Symptoms.Damping or Symptoms.Pull);
        }

        return new() { Readings = readings, Missing = missing, HealthyCaptures = healthy.Count, Captures = now.Count };
    }

    private static SymptomReading Read(Symptom symptom, double[] before, double[] after)
    {
        var all = after.Length * (after.Length + 1) / 2.0;
        double[] weights = [.. Enumerable.Range(1, after.Length).Select(place => place / all)];
        if (symptom.Healthy is { } known)
        {
            var present = after.Select((value, i) => weights[i] * value).Sum();
            return new(symptom, known, present, symptom.Spread, (present - known) / symptom.Spread);
        }

        // Angles are counted from the first, so that a mean across the end of the turn is none across the circle.
        var origin = before[0];
        var mean = origin + before.Average(value => symptom.Apart(value, origin));
        var now = mean + after.Select((value, i) => weights[i] * symptom.Apart(value, mean)).Sum();
        var squares = before.Sum(value => Math.Pow(symptom.Apart(value, mean), 2));
        var spread = Math.Sqrt((PriorCaptures * symptom.Spread * symptom.Spread + squares) / (PriorCaptures + before.Length - 1));
        return new(symptom, mean, now, spread, (now - mean) / (spread * Math.Sqrt(weights.Sum(weight => weight * weight) + 1.0 / before.Length)));
    }
}
