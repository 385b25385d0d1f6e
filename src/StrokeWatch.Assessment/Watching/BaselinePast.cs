using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Watching;

/// <summary>Turns a baseline's features into what each symptom was: its value at the means, and its spread by what each feature's own spread does to it.</summary>
/// <remarks>Features are taken to scatter independently (GUM 5.1.2), which makes the spread of what is worked out from several rather too large than too small.</remarks>
internal static class BaselinePast
{
    /// <summary>A baseline that was told is held to know its spreads as well as one learned from so many readings.</summary>
    private const int ToldReadings = 30;

    /// <summary>Symptoms that are angles without a mean: a baseline does not hold them.</summary>
    public static IReadOnlySet<string> NotKept { get; } = new HashSet<string>(StringComparer.Ordinal) { Symptoms.SecondPhase, Symptoms.EndsPhase };

    /// <summary>Gives the symptoms that the baseline tells, by their ids.</summary>
    public static IReadOnlyDictionary<string, Past> Of(Baseline baseline)
    {
        var means = baseline.Features.ToDictionary(feature => feature.Name, feature => feature.Mean, StringComparer.Ordinal);

        // A baseline holds no drive frequency, which the mains give; natural frequency and tuning ratio tell it.
        if (means.TryGetValue("natural_frequency_hz", out var natural) && means.TryGetValue("tuning_ratio", out var ratio) && ratio > 0)
        {
            means["drive_hz"] = natural / ratio;
        }

        var pasts = new Dictionary<string, Past>(StringComparer.Ordinal);
        foreach (var symptom in Symptoms.All.Where(symptom => symptom.Healthy is null && !NotKept.Contains(symptom.Id)))
        {
            if (Of(symptom, baseline, means) is { } past)
            {
                pasts.Add(symptom.Id, past);
            }
        }

        return pasts;
    }

    private static Past? Of(Symptom symptom, Baseline baseline, Dictionary<string, double> means)
    {
        double? At(Dictionary<string, double> values) => Value(symptom, KeptFeatures.Read(values, 0, null));
        if (At(means) is not { } mean)
        {
            return null;
        }

        var variance = 0.0;
        int? count = null;
        foreach (var feature in baseline.Features)
        {
            // Where no spread was seen, a small shift still tells whether the symptom rests on the feature at all.
            var step = feature.Spread > 0 ? feature.Spread : 1e-6 * Math.Max(1e-3, Math.Abs(feature.Mean));
            var shifted = new Dictionary<string, double>(means, StringComparer.Ordinal) { [feature.Name] = feature.Mean + step };
            var moved = At(shifted) is { } value ? symptom.Apart(value, mean) : 0;
            if (moved != 0)
            {
                variance += feature.Spread > 0 ? moved * moved : 0;
                count = feature.Count is { } readings ? Math.Min(count ?? readings, readings) : count;
            }
        }

        var past = Past.Of(symptom, mean, variance * ((count ?? ToldReadings) - 1), count ?? ToldReadings);
        return count is null ? past with { Count = double.PositiveInfinity } : past;
    }

    /// <summary>Reads a symptom; the stroke also where a natural frequency is known, beside which the rules leave it out.</summary>
    public static double? Value(Symptom symptom, CaptureFeatures features) =>
        symptom.Of(symptom.Id == Symptoms.Stroke ? features with { NaturalHz = null } : features);
}
