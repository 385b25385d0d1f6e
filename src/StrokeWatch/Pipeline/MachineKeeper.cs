using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Pipeline;

/// <summary>Keeps what is known of a machine over weeks: the baseline's file, and the state that stretches of running lead to. Works at the desk, speaks on the measuring thread.</summary>
internal sealed class MachineKeeper
{
    private readonly WatchHistory settings;
    private readonly IChainListener outputs;
    private readonly ILogger log;
    private MachineWatch watch;
    private Baseline? unwritten;
    private bool blind;
    private string? told;
    private volatile MachineStanding? now;

    /// <summary>Makes it; nothing is read yet.</summary>
    /// <param name="settings">What is learned and followed.</param>
    /// <param name="outputs">Hear stretches, findings and the alarm.</param>
    /// <param name="log">The log.</param>
    public MachineKeeper(WatchHistory settings, IChainListener outputs, ILogger log)
    {
        (this.settings, this.outputs, this.log) = (settings, outputs, log);
        watch = new(null, null);
    }

    /// <summary>Gets what is known of the machine; null before the store was read. Any thread may ask.</summary>
    public MachineStanding? Now => now;

    /// <summary>Reads the baseline and goes on where the program left off; gives what is then to be said.</summary>
    /// <param name="stretches">The stretches that are kept, in order.</param>
    public Action? Resume(IReadOnlyList<Stretch> stretches)
    {
        var baseline = InForce();
        var why = settings.LearnSince is { } since ? $"the configuration asks for a new one since {RecordedDate.Text(since)}" : "there was no baseline";
        watch = new(baseline, blind ? null : settings.Learning, why);
        var after = baseline?.Made ?? settings.LearnSince ?? DateTimeOffset.MinValue;
        foreach (var stretch in stretches.Where(stretch => stretch.To > after && Counts(stretch)))
        {
            unwritten = watch.Take(stretch).Learned ?? unwritten;
        }

        var kept = Keep();
        var (progress, standing) = (watch.Progress(), watch.Standing);
        now = MachineStanding.Of(watch);
        return () =>
        {
            log.Information("Over weeks: {Progress:l}", progress);
            kept?.Invoke();
            if (standing is not null)
            {
                outputs.Alarm(new(AlarmKind.MachineChanged, true, 0, null, "Still: " + standing.AlarmWords()));
            }
        };
    }

    /// <summary>Judges a stretch; gives what is then to be said.</summary>
    /// <param name="stretch">The stretch.</param>
    /// <param name="atSeconds">Its end on the source's axis of time.</param>
    public Action? Judge(Stretch stretch, double atSeconds)
    {
        var renewed = Renew(atSeconds);
        var outcome = Counts(stretch) ? watch.Take(stretch) : new();
        unwritten = outcome.Learned ?? unwritten;
        var kept = Keep();
        now = MachineStanding.Of(watch);
        return () =>
        {
            renewed?.Invoke();
            outputs.Stretch(stretch);
            kept?.Invoke();
            foreach (var finding in outcome.Findings)
            {
                outputs.Finding(finding);
            }

            if (outcome.AlarmWords is { } words)
            {
                outputs.Alarm(new(AlarmKind.MachineChanged, outcome.AlarmRaised, atSeconds, stretch.Features.Stroke, words));
            }
        };
    }

    private bool Counts(Stretch stretch) => !(stretch.From < settings.LearnSince);

    /// <summary>Takes over a version that somebody has added to the file; what stood against the old one is cleared.</summary>
    private Action? Renew(double atSeconds)
    {
        var before = watch;
        if (unwritten is not null)
        {
            return null;
        }

        if (InForce() is not { } now)
        {
            if (before.Baseline is { } kept && !blind && settings.BaselinePath is { } gone)
            {
                TellOnce($"{gone} holds no baseline any more; version {kept.Version} is followed from memory until the program stops: put the file back");
            }

            return null;
        }

        if (before.Baseline is { } known && known.Version == now.Version && known.Made == now.Made)
        {
            if (BaselineJson.Write(known) != BaselineJson.Write(now))
            {
                TellOnce($"version {known.Version} in {settings.BaselinePath} was changed after it was made; what it was is followed until the program stops. Versions are added, never changed: put it back, and add one with strokewatch baseline");
            }

            return null;
        }

        watch = new(now, null);
        var words = $"{BaselineText.Title(now)}: in force from now on";
        return () =>
        {
            outputs.Baseline(words);
            if (before.Standing is { } standing)
            {
                outputs.Finding(new(standing, false, now.Made));
                outputs.Alarm(new(AlarmKind.MachineChanged, false, atSeconds, null, "A new baseline is in force: the machine is judged anew."));
            }
        };
    }

    /// <summary>Adds what was learned to the file; where that fails it is tried again with the next stretch.</summary>
    private Action? Keep()
    {
        if (unwritten is not { } learned)
        {
            return null;
        }

        var words = BaselineText.Title(learned);
        if (settings.BaselinePath is { } path)
        {
            var errors = new ConfigurationErrors(path);
            if (BaselineFile.Add(path, learned, errors) is not { } added)
            {
                Tell(errors);
                return null;
            }

            watch.Number(added.Version);
            words = BaselineText.Title(added);
        }

        unwritten = null;
        return () => outputs.Baseline(words);
    }

    /// <summary>Reads the baseline in force; null where there is none, or none since it is to be learned anew.</summary>
    private Baseline? InForce()
    {
        if (settings.BaselinePath is not { } path)
        {
            return null;
        }

        var errors = new ConfigurationErrors(path);
        var history = BaselineFile.Read(path, errors);
        if (history is null)
        {
            Tell(errors);
            blind = true;
            return null;
        }

        blind = false;
        return history.Current is { } current && !(current.Made < settings.LearnSince) ? current : null;
    }

    private void TellOnce(string trouble)
    {
        if (told != trouble)
        {
            told = trouble;
            log.Error("Baseline: {Trouble:l}", trouble);
        }
    }

    private void Tell(ConfigurationErrors errors)
    {
        if (!blind)
        {
            foreach (var error in errors)
            {
                log.Error("Baseline: {Error}; changes over weeks are not judged by it until it can be read and written", error);
            }
        }
    }
}
