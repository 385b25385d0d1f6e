using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;

namespace StrokeWatch.Assessment.Watching;

/// <summary>The stretches that show the machine as it is now: the last two, and before them the last with a stop or start as long as what that told still holds.</summary>
internal sealed class RecentStretches(WatchSettings settings)
{
    private const int Present = 2;

    /// <summary>A stroke that has moved on by more than this share since the stop or start speaks of another machine than that one told of.</summary>
    private const double SameStroke = 0.03;

    private readonly List<Stretch> latest = [];
    private Stretch? transient;

    /// <summary>Takes a stretch.</summary>
    public void Add(Stretch stretch)
    {
        latest.Add(stretch);
        if (latest.Count > Present)
        {
            latest.RemoveAt(0);
        }

        transient = stretch.Features.NaturalHz is not null ? stretch : transient;
    }

    /// <summary>Compares the machine of now with what it was.</summary>
    public Evidence Evidence(IReadOnlyDictionary<string, Past> pasts, int healthy)
    {
        List<CaptureFeatures> now = [.. latest.Select(stretch => stretch.Features)];
        if (transient is not null && !latest.Contains(transient) && Holds(transient, latest[^1]))
        {
            now.Insert(0, transient.Features);
        }

        // Stroke, natural frequency and pull are one thing seen thrice: where the latter two are known, the rules go by them.
        var told = now.Exists(features => features.NaturalHz is not null);
        Past? Of(Symptom symptom) => pasts.TryGetValue(symptom.Id, out var past) && !(told && symptom.Id == Symptoms.Stroke) ? past : null;
        var evidence = Diagnosis.Evidence.Of(Of, now, healthy);
        return evidence with
        {
            Missing = [.. evidence.Missing.Where(symptom => !BaselinePast.NotKept.Contains(symptom.Id) && !(told && symptom.Id == Symptoms.Stroke))],
        };
    }

    private bool Holds(Stretch then, Stretch now) => now.To - then.To <= settings.TransientHolds
        && then.Features.Stroke is > 0 and var before && now.Features.Stroke is > 0 and var after && Math.Abs(Math.Log(after / before)) < SameStroke;
}
