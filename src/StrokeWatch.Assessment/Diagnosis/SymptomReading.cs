using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>A symptom beside what is healthy.</summary>
/// <param name="Symptom">The symptom.</param>
/// <param name="Healthy">Its healthy mean.</param>
/// <param name="Now">Its present value.</param>
/// <param name="Spread">The standard deviation of one healthy capture.</param>
/// <param name="Deviation">The difference in its own standard deviations.</param>
public sealed record SymptomReading(Symptom Symptom, double Healthy, double Now, double Spread, double Deviation)
{
    /// <summary>Gets the value of the newest capture that tells it.</summary>
    public required double Newest { get; init; }

    /// <summary>Gives how far a capture lies from healthy, in spreads of a healthy capture; null where it does not tell.</summary>
    public double? Of(CaptureFeatures features) => Symptom.Of(features) is { } value ? Symptom.Apart(value, Healthy) / Spread : null;

    /// <summary>Writes it as a sentence with numbers.</summary>
    public string Sentence() => $"{Symptom.Words}: {Symptom.Show(Healthy, Symptom.ByNewest ? Newest : Now)}.";
}
