using System.Collections.Concurrent;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>
/// Keeps the lives of a feeder's alarms: what is measured and what people ask goes in, each step is journalled before it takes effect, and outputs hear what people should see.
/// All but <see cref="Ask"/>, <see cref="Failed"/> and <see cref="Now"/> belongs to the measuring thread.
/// </summary>
internal sealed class AlarmDesk : IChainListener
{
    private const string Measured = "measurement";
    private const double LookSeconds = 0.5;

    private readonly AlarmTable table;
    private readonly IAlarmJournal journal;
    private readonly IChainListener record;
    private readonly IChainListener shown;
    private readonly TimeProvider time;
    private readonly WriteAhead ahead;
    private readonly StuckSensors stuck;
    private readonly DelayedAlarm store;
    private readonly DelayedAlarm output;
    private readonly ShelfTimes shelves;
    private readonly Dictionary<AlarmId, AlarmLife> lives = [];
    private readonly Dictionary<AlarmId, AlarmView> views = [];
    private readonly HashSet<AlarmId> standing = [];
    private readonly ConcurrentQueue<(AlarmRequest Request, TaskCompletionSource<string?> Answer)> requests = new();
    private readonly ConcurrentQueue<string> failures = new();
    private readonly Action<AlarmTransition> measured;
    private SeveralReading? several;
    private WindowReading last = new() { StartSeconds = 0, LengthSeconds = 0, Quality = WindowQuality.Gap, Motion = MotionState.Unknown };
    private volatile IReadOnlyList<AlarmView> now = [];
    private long looked;

    /// <summary>Makes it with all alarms normal.</summary>
    /// <param name="table">The alarms.</param>
    /// <param name="journal">Where steps are written.</param>
    /// <param name="record">Hears every alarm that is raised or cleared, seen or not, and all else.</param>
    /// <param name="shown">Hears alarms only while people should see them, and all else.</param>
    /// <param name="time">The clock.</param>
    public AlarmDesk(AlarmTable table, IAlarmJournal journal, IChainListener record, IChainListener shown, TimeProvider time)
    {
        (this.table, this.journal, this.record, this.shown, this.time) = (table, journal, record, shown, time);
        ahead = new(journal, time);
        stuck = new(table[AlarmKind.SensorStuck]);
        store = Delayed(AlarmKind.StoreTrouble);
        output = Delayed(AlarmKind.OutputTrouble);
        shelves = new(time);
        measured = transition => Alarm(transition);
        looked = time.GetTimestamp();
    }

    /// <summary>Gets the alarms that anything has happened to, as they stand; what is not written yet does not show. Any thread may ask.</summary>
    public IReadOnlyList<AlarmView> Now => now;

    /// <summary>Gets how many steps took effect before they were written.</summary>
    public long Unwritten => ahead.Unwritten;

    /// <summary>Takes a person's request from any thread; the task answers null once it has taken effect, or why it was refused.</summary>
    public Task<string?> Ask(AlarmRequest request)
    {
        var answer = new TaskCompletionSource<string?>(TaskCreationOptions.RunContinuationsAsynchronously);
        requests.Enqueue((request, answer));
        return answer.Task;
    }

    /// <summary>Hears from any thread that an output fails.</summary>
    public void Failed(string name) => failures.Enqueue(name);

    /// <summary>Goes on from the last steps of a journal, in order; an alarm to which something has happened already is left as it is.</summary>
    public void Resume(IReadOnlyList<AlarmStep> kept)
    {
        foreach (var steps in kept.GroupBy(step => step.Id).Where(steps => LifeOf(steps.Key).State == AlarmState.Normal && !views.ContainsKey(steps.Key)).ToList())
        {
            var life = LifeOf(steps.Key);
            life.Resume(steps.Last());
            steps.SkipLast(1).ToList().ForEach(View);
            View(steps.Last() with { To = life.State, Beneath = life.Beneath });
        }
    }

    /// <summary>Does what is due: requests, shelves that end, the store's and the outputs' own trouble, and steps that are written by now.</summary>
    public void Deliver()
    {
        while (requests.TryDequeue(out var asked))
        {
            Answer(asked.Request, asked.Answer);
        }

        var elapsed = time.GetElapsedTime(looked).TotalSeconds;
        if (elapsed >= LookSeconds || !failures.IsEmpty)
        {
            looked = time.GetTimestamp();
            Look(elapsed);
        }

        ahead.Deliver();
    }

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => Both(measurement, static (listener, heard) => listener.Begin(heard));

    /// <inheritdoc/>
    public void Several(in SeveralReading reading)
    {
        several = reading;
        Both(reading, static (listener, heard) => listener.Several(heard));
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        var reading = window.Reading;
        if (several is { } sensors)
        {
            stuck.Take(sensors, reading.LengthSeconds, measured);
        }
        else
        {
            stuck.Take(null, reading, reading.LengthSeconds, measured);
        }

        (several, last) = (null, reading.Quality == WindowQuality.Gap ? reading with { Motion = last.Motion } : reading);
        foreach (var life in lives.Values)
        {
            var why = Meaningless(life);
            Step(life, why is null ? AlarmAct.Unsuppress : life.Active ? AlarmAct.Suppress : null, why ?? Measured);
        }

        Both(window, static (listener, heard) => listener.Window(heard));
        ahead.Deliver();
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => Both(decay, static (listener, heard) => listener.Decay(heard));

    /// <inheritdoc/>
    public void Start(in StartReading reading) => Both(reading, static (listener, heard) => listener.Start(heard));

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        var heard = transition;
        var life = LifeOf(new(heard.Kind, heard.Place));
        if (heard.Raised && Meaningless(life) is { } why)
        {
            Step(life, AlarmAct.Suppress, why);
        }

        var answer = life.Take(new(heard.Raised ? AlarmAct.Activate : AlarmAct.Clear, time.GetUtcNow(), Measured, heard.Words));
        if (answer.Step is { } step)
        {
            ahead.Add(step, () =>
            {
                record.Alarm(heard);
                Show(step, heard);
            });
        }

        ahead.Deliver();
    }

    /// <inheritdoc/>
    public void Stretch(Stretch stretch) => Both(stretch, static (listener, heard) => listener.Stretch(heard));

    /// <inheritdoc/>
    public void Finding(FindingTransition transition) => Both(transition, static (listener, heard) => listener.Finding(heard));

    /// <inheritdoc/>
    public void Baseline(string words) => Both(words, static (listener, heard) => listener.Baseline(heard));

    /// <inheritdoc/>
    public void Finish()
    {
        Deliver();
        ahead.Finish();
        Both(0, static (listener, _) => listener.Finish());
    }

    private double Seconds => last.StartSeconds + last.LengthSeconds;

    private DelayedAlarm Delayed(AlarmKind kind) => new(table[kind].OnSeconds, table[kind].OffSeconds);

    /// <summary>Says why an alarm means nothing as the machine now is; null where it does mean something.</summary>
    private string? Meaningless(AlarmLife life) => !life.Row.OnlyRunning ? null
        : last.Motion is MotionState.Stopped or MotionState.Starting or MotionState.CoastingDown ? "the feeder does not run"
        : life.Id.Kind == AlarmKind.Unmeasurable && (last.FailingPlace is { } place ? stuck.Holds(place) : last.Stuck && stuck.Holds(null)) ? "a stuck sensor says the same"
        : null;

    private AlarmLife LifeOf(AlarmId id)
    {
        if (!lives.TryGetValue(id, out var life))
        {
            lives.Add(id, life = new(id, table[id.Kind]));
        }

        return life;
    }

    private void Step(AlarmLife life, AlarmAct? act, string by, DateTimeOffset? lived = null)
    {
        if (act is { } known && life.Take(new(known, time.GetUtcNow(), by, Until: lived)).Step is { } step)
        {
            ahead.Add(step, () => Show(step, null));
        }
    }

    private void Answer(AlarmRequest request, TaskCompletionSource<string?> answer)
    {
        var at = time.GetUtcNow();
        if (!request.IsPersons || string.IsNullOrWhiteSpace(request.By))
        {
            answer.SetResult(request.IsPersons ? "say who asks" : $"{Names.Of(request.Act)} is not for people to ask");
            return;
        }

        var (step, refusal) = LifeOf(request.Id).Take(new(request.Act, at, request.By, request.Words, at + request.For));
        if (step is null)
        {
            answer.SetResult(refusal);
            return;
        }

        ahead.Add(step, () =>
        {
            Show(step, null);
            answer.SetResult(null);
        });
    }

    private void Look(double elapsed)
    {
        foreach (var (id, life) in lives)
        {
            var lived = shelves.Lived(id, life.ShelvedUntil);
            Step(life, life.ShelvedUntil is null ? null : AlarmAct.ShelfEnds, "time", lived ? life.ShelvedUntil : null);
        }

        List<string> failing = [.. failures.Distinct()];
        failures.Clear();
        if (output.Step(failing.Count > 0, elapsed))
        {
            Own(
                AlarmKind.OutputTrouble, output.Active,
                output.Active ? $"Output trouble: {string.Join(" and ", failing)} {(failing.Count > 1 ? "fail" : "fails")}; the measurement goes on. The station view and the log say why." : "Outputs work again.");
        }

        // A step that could not be written says at once what the store's own health may take seconds to say.
        var trouble = journal.Trouble ?? (ahead.Failing ? "the journal of alarms cannot be written" : null);
        if (store.Step(trouble is not null, ahead.Failing ? double.PositiveInfinity : elapsed))
        {
            Own(AlarmKind.StoreTrouble, store.Active, store.Active ? $"Store trouble: {trouble}. Alarms go on; they may not be written down." : "What is measured and alarmed is written down again.");
        }
    }

    private void Own(AlarmKind kind, bool raised, string words) => Alarm(new(kind, raised, Seconds, null, words));

    /// <summary>Lets a step show: in the view, and to the outputs where an alarm comes to stand where people see it, or no longer does.</summary>
    private void Show(AlarmStep step, AlarmTransition? heard)
    {
        View(step);
        var stands = views[step.Id].Stands;
        if (stands ? standing.Add(step.Id) : standing.Remove(step.Id))
        {
            var own = heard ?? new AlarmTransition(step.Id.Kind, stands, Seconds, null, Words(step, stands)) { Place = step.Id.Place };
            shown.Alarm(own with { Raised = stands });
        }
    }

    private string Words(AlarmStep step, bool stands)
    {
        return stands ? lives[step.Id].Words
            : step.To == AlarmState.Shelved ? FormattableString.Invariant($"Shelved by {step.By} until {step.Until:yyyy-MM-dd HH:mm} UTC: {step.Id}.")
            : step.To == AlarmState.OutOfService ? $"Taken out of service by {step.By}: {step.Id}."
            : $"No longer shown, {step.By}: {step.Id}.";
    }

    private void View(AlarmStep step)
    {
        views[step.Id] = AlarmView.After(views.GetValueOrDefault(step.Id), step, table[step.Id.Kind].Priority);
        now = [.. views.Values];
    }

    private void Both<T>(T heard, Action<IChainListener, T> tell)
    {
        tell(record, heard);
        tell(shown, heard);
    }
}
