using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Assessment.Watching;

/// <summary>
/// What is known of a machine over weeks: learns what healthy is where no baseline is given, follows its symptoms stretch by stretch, and says what has changed and what it
/// points to. Pure: the same stretches lead to the same state, so that a program that starts again reads them back and goes on.
/// </summary>
/// <remarks>The trends' charts decide whether the machine has changed, at a run length that is designed; the causes' probabilities only say what the change is.</remarks>
public sealed class MachineWatch
{
    private readonly WatchSettings settings;
    private readonly string why;
    private readonly BaselineLearner? learner;
    private readonly RecentStretches recent;
    private IReadOnlyDictionary<string, Past> pasts = new Dictionary<string, Past>();
    private TrendBook? trends;
    private DateTimeOffset? first;
    private DateTimeOffset latest = DateTimeOffset.MinValue;
    private string? contender;

    /// <summary>Begins to watch.</summary>
    /// <param name="baseline">What healthy is; null where it is not known.</param>
    /// <param name="learning">How it is learned where it is not known; null where it is not to be learned.</param>
    /// <param name="why">Why it is learned, for the baseline's note.</param>
    /// <param name="settings">How the machine is watched.</param>
    public MachineWatch(Baseline? baseline, BaselineSettings? learning, string why = "there was no baseline", WatchSettings? settings = null)
    {
        this.why = why;
        this.settings = settings ?? new();
        recent = new(this.settings);
        if (baseline is not null)
        {
            Adopt(baseline);
        }
        else
        {
            learner = learning is null ? null : new(learning);
        }
    }

    /// <summary>Gets what healthy is; null while it is not known.</summary>
    public Baseline? Baseline { get; private set; }

    /// <summary>Gets the finding that stands; null where none does.</summary>
    public WatchFinding? Standing { get; private set; }

    /// <summary>Gets how many stretches could not be used because they were not later than those before: the clock was set back.</summary>
    public long NotLater { get; private set; }

    /// <summary>Says in a line what is known.</summary>
    public string Progress() => Baseline is { } known
        ? string.Create(CultureInfo.InvariantCulture, $"baseline version {known.Version}, made {RecordedDate.Text(known.Made)}; {trends!.Count} symptoms are followed")
        : learner is null ? "there is no baseline, and none is learned: changes over weeks cannot be told"
        : string.Create(
            CultureInfo.InvariantCulture,
            $"learning what healthy is: {learner.Taken} stretches of running taken, {learner.RefusedForAlarms} left out because of alarms; changes over weeks cannot be told yet");

    /// <summary>Says under which number what was learned has been kept.</summary>
    public void Number(int version) => Baseline = Baseline is null ? null : Baseline with { Version = version };

    /// <summary>Takes the next stretch of running; one that tells nothing changes nothing.</summary>
    public WatchOutcome Take(Stretch stretch)
    {
        if (stretch.Features.Reason is not null || stretch.Features.Stroke is null)
        {
            return new();
        }

        if (stretch.To <= latest)
        {
            NotLater++;
            return new();
        }

        latest = stretch.To;
        return Baseline is null ? Learn(stretch) : Judge(stretch);
    }

    private WatchOutcome Learn(Stretch stretch)
    {
        if (learner?.Offer(stretch.To, BaselineReadings.Of(stretch.Features), stretch.Alarm) == LearningOutcome.Taken)
        {
            first ??= stretch.From;
        }

        if (learner?.Result is not { } learned)
        {
            return new();
        }

        var note = string.Create(
            CultureInfo.InvariantCulture,
            $"learned by watch from {learner.Taken} stretches of running without an alarm, {RecordedDate.Text(first!.Value)} to {RecordedDate.Text(stretch.To)}, because {why}");
        Adopt(learned with { Note = note });
        return new() { Learned = Baseline };
    }

    /// <summary>Takes a baseline for what is healthy.</summary>
    private void Adopt(Baseline baseline)
    {
        Baseline = baseline;
        pasts = BaselinePast.Of(baseline);
        trends = new(pasts, settings);
    }

    private WatchOutcome Judge(Stretch stretch)
    {
        recent.Add(stretch);
        trends!.Add(stretch.To, stretch.Features);
        var drifts = trends.Drifting();
        var wanted = drifts.Count == 0 ? null : Explanation.Of(drifts, recent.Evidence(pasts, Baseline!.Find("stroke_mm")?.Count ?? 0), settings.Named);
        return Settle(wanted, stretch.To);
    }

    private WatchOutcome Settle(WatchFinding? wanted, DateTimeOffset at)
    {
        var before = Standing;
        if (before is null || wanted is null)
        {
            (Standing, contender) = (wanted, null);
            return (before, wanted) switch
            {
                (null, { } raised) => new() { Findings = [new(raised, true, at)], AlarmRaised = true, AlarmWords = raised.AlarmWords() },
                ({ } cleared, null) => new() { Findings = [new(cleared, false, at)], AlarmWords = Explanation.Clear },
                _ => new(),
            };
        }

        if (wanted.Id == before.Id)
        {
            (Standing, contender) = (wanted, null);
            return new();
        }

        // Another explanation takes over only when it has been the better one twice running.
        if (wanted.Id != contender)
        {
            contender = wanted.Id;
            return new();
        }

        (Standing, contender) = (wanted, null);
        return new() { Findings = [new(before, false, at), new(wanted, true, at)] };
    }
}
