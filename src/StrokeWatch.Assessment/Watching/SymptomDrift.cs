using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Trends;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Assessment.Watching;

/// <summary>A symptom that has left what is healthy, with date and size.</summary>
/// <param name="Symptom">The symptom.</param>
/// <param name="Healthy">Its healthy mean.</param>
/// <param name="Change">When it changed, how, and by how much.</param>
internal sealed record SymptomDrift(Symptom Symptom, double Healthy, ChangePoint Change)
{
    /// <summary>Writes it as a sentence with numbers and dates.</summary>
    public string Sentence()
    {
        var when = Change.MayBeOlder
            ? $"{RecordedDate.Text(Change.At)} or before, by {RecordedDate.Text(Change.Latest)} at the latest"
            : Change.Earliest < Change.Latest
            ? $"{RecordedDate.Text(Change.At)}, most likely between {RecordedDate.Text(Change.Earliest)} and {RecordedDate.Text(Change.Latest)}"
            : RecordedDate.Text(Change.At);
        return $"{Symptom.Words}: {Symptom.Show(Healthy, Healthy + Change.Size)}, {(Change.Shape == ChangeShape.Ramp ? "steadily since" : "at")} {when}.";
    }
}
