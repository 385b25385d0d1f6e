using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Trends;

namespace StrokeWatch.Assessment.Watching;

/// <summary>The trends of a machine's symptoms, each beside its baseline.</summary>
internal sealed class TrendBook
{
    private const double FailingShare = 0.05;

    /// <summary>Fewer readings leave a baseline so doubtful that charts that keep quiet on a healthy machine would keep quiet on any.</summary>
    private const int Fewest = 8;

    private static readonly string[] Followed =
    [
        Symptoms.Natural, Symptoms.Damping, Symptoms.Pull, Symptoms.Stroke, Symptoms.Angle, Symptoms.Ellipse, Symptoms.Second, Symptoms.Third, Symptoms.High,
        Symptoms.Across, Symptoms.Half, Symptoms.Noise, Symptoms.Slow, Symptoms.Tilt, Symptoms.Gravity,
    ];

    private readonly List<(Symptom Symptom, Past Past, TrendWatch Watch)> trends = [];

    /// <summary>Sets the trends up; costs some tenths of a second.</summary>
    /// <param name="pasts">What each symptom was.</param>
    /// <param name="settings">How often a healthy machine may be called.</param>
    public TrendBook(IReadOnlyDictionary<string, Past> pasts, WatchSettings settings)
    {
        var designs = new Dictionary<int, TrendDesign?>();
        foreach (var symptom in Symptoms.All.Where(symptom => Followed.Contains(symptom.Id) && pasts.ContainsKey(symptom.Id)))
        {
            var past = pasts[symptom.Id];
            int? count = double.IsFinite(past.Count) ? (int)past.Count : null;
            if (!designs.TryGetValue(count ?? 0, out var design))
            {
                design = Design(settings, count);
                designs.Add(count ?? 0, design);
            }

            if (design is not null)
            {
                trends.Add((symptom, past, new(design, new(0, past.Spread, count, 0))));
            }
        }
    }

    /// <summary>Gets how many symptoms are followed.</summary>
    public int Count => trends.Count;

    /// <summary>Designs the charts; null where a baseline of so few readings leaves no limit at which a healthy machine is called seldom enough.</summary>
    private static TrendDesign? Design(WatchSettings settings, int? count)
    {
        if (count < Fewest)
        {
            return null;
        }

        return TrendDesign.For(new() { RunLength = settings.RunLength * Followed.Length, Shift = settings.Shift }, count);
    }

    /// <summary>Takes a stretch; what a hammering armature overlays or a failing sensor spoils is left out.</summary>
    public void Add(DateTimeOffset at, CaptureFeatures features)
    {
        var hammers = features.StrikeScoreMedian >= 1 || features.ClippedShare > 0;
        var fails = features.SilentShare > FailingShare;
        foreach (var (symptom, past, watch) in trends)
        {
            var spoiled = (hammers && Symptoms.Overlaid.Contains(symptom.Id)) || (fails && symptom.Id is Symptoms.Natural or Symptoms.Damping or Symptoms.Pull);
            if (!spoiled && BaselinePast.Value(symptom, features) is { } value)
            {
                watch.TryAdd(at, symptom.Apart(value, past.Mean), 0);
            }
        }
    }

    /// <summary>Gives the symptoms that have left what is healthy, the furthest first.</summary>
    public IReadOnlyList<SymptomDrift> Drifting() =>
    [
        .. trends.Where(trend => trend.Watch.State != TrendState.Steady).Select(trend => (trend.Symptom, trend.Past, trend.Watch.Report().Change))
            .Where(drift => drift.Change is not null)
            .OrderByDescending(drift => Math.Abs(drift.Change!.Size) / drift.Past.Spread)
            .Select(drift => new SymptomDrift(drift.Symptom, drift.Past.Mean, drift.Change!)),
    ];
}
