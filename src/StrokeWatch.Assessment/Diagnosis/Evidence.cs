using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>What a machine shows now beside what it showed when it was healthy.</summary>
public sealed record Evidence
{
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
    public static Evidence Of(IReadOnlyList<CaptureFeatures> healthy, IReadOnlyList<CaptureFeatures> now) => Of(
        symptom => healthy.Select(symptom.Of).OfType<double>().ToArray() is { Length: > 0 } readings ? Past.Of(symptom, readings) : null, now, healthy.Count);

    /// <summary>Compares captures of now with what each symptom was.</summary>
    /// <param name="past">Gives what a symptom was; null where that is not known.</param>
    /// <param name="now">Captures of the machine as it is now, in order of date.</param>
    /// <param name="healthyCaptures">How many healthy captures there are.</param>
    internal static Evidence Of(Func<Symptom, Past?> past, IReadOnlyList<CaptureFeatures> now, int healthyCaptures)
    {
        var readings = new List<SymptomReading>();
        var missing = new List<Symptom>();
        var hammers = now.Any(features => features.StrikeScoreMedian >= 1 || features.ClippedShare > 0);
        foreach (var symptom in Symptoms.All.Where(symptom => !hammers || !Symptoms.Overlaid.Contains(symptom.Id)))
        {
            var before = past(symptom);
            var after = now.Select(symptom.Of).OfType<double>().ToArray();

            // A machine that was set up on the normal side and has left it shows that by its natural frequency.
            if (symptom.Id == Symptoms.Side && (before is null || before.Value.Mean > -symptom.Spread))
            {
                continue;
            }

            if (after.Length == 0 || (before is null && symptom.Healthy is null))
            {
                missing.Add(symptom);
                continue;
            }

            readings.Add(Read(symptom, before, after));
        }

        // What a failing sensor leaves of a transient is no free decay.
        if (readings.Any(reading => reading.Symptom.Id == Symptoms.Silent && reading.Deviation > Failing))
        {
            readings.RemoveAll(reading => reading.Symptom.Id is Symptoms.Natural or Symptoms.Damping or Symptoms.Pull or Symptoms.PullPhase);
        }

        return new() { Readings = readings, Missing = missing, HealthyCaptures = healthyCaptures, Captures = now.Count };
    }

    private static SymptomReading Read(Symptom symptom, Past? before, double[] after)
    {
        var all = after.Length * (after.Length + 1) / 2.0;
        double[] weights = [.. Enumerable.Range(1, after.Length).Select(place => place / all)];
        if (symptom.Healthy is { } known)
        {
            var present = after.Select((value, i) => weights[i] * value).Sum();
            return new(symptom, known, present, symptom.Spread, (present - known) / symptom.Spread) { Newest = after[^1] };
        }

        var (mean, spread, count) = before!.Value;
        var now = mean + after.Select((value, i) => weights[i] * symptom.Apart(value, mean)).Sum();
        return new(symptom, mean, now, spread, (now - mean) / (spread * Math.Sqrt(weights.Sum(weight => weight * weight) + 1.0 / count))) { Newest = after[^1] };
    }
}
