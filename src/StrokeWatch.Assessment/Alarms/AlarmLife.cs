namespace StrokeWatch.Assessment.Alarms;

/// <summary>The life of one alarm after IEC 62682: what happens to it goes in, its steps come out. Pure: no clock, no I/O; time comes with what happens.</summary>
/// <remarks>
/// Shelving, suppression and being out of service lie over the other states, in rising order: beneath them the alarm goes on, so that a danger which latched while it was
/// shelved is still there afterwards. An alarm that came and went unseen beneath them, and does not latch, leaves nothing to acknowledge.
/// </remarks>
public sealed class AlarmLife(AlarmId id, AlarmRow row)
{
    private bool suppressed;
    private bool outOfService;
    private bool seen;

    /// <summary>Gets the alarm.</summary>
    public AlarmId Id => id;

    /// <summary>Gets its row of the table.</summary>
    public AlarmRow Row => row;

    /// <summary>Gets its state as people see it.</summary>
    public AlarmState State => outOfService ? AlarmState.OutOfService : ShelvedUntil is not null ? AlarmState.Shelved : suppressed ? AlarmState.SuppressedByDesign : Beneath;

    /// <summary>Gets the state beneath shelf, suppression and being out of service.</summary>
    public AlarmState Beneath { get; private set; }

    /// <summary>Gets whether its condition holds.</summary>
    public bool Active => Beneath is AlarmState.Unacknowledged or AlarmState.Acknowledged;

    /// <summary>Gets when its condition began to hold, in UTC; null where it never has.</summary>
    public DateTimeOffset? ActiveSince { get; private set; }

    /// <summary>Gets when its shelf ends, in UTC; null where it is not shelved.</summary>
    public DateTimeOffset? ShelvedUntil { get; private set; }

    /// <summary>Gets what was last said of it.</summary>
    public string Words { get; private set; } = "";

    private bool Masked => outOfService || suppressed || ShelvedUntil is not null;

    /// <summary>Takes what happens; gives the step that comes of it, or why a person's request is refused.</summary>
    public AlarmAnswer Take(in AlarmInput input)
    {
        var (from, beneath) = (State, Beneath);
        var refusal = Apply(input, out var changed);
        if (refusal is not null || !changed)
        {
            return new(null, refusal);
        }

        seen = Active && (!Masked || (seen && beneath == Beneath));
        Words = input.Words.Length > 0 ? input.Words : Words;
        return new(new(id, input.Act, from, State, Beneath, input.At, input.By, input.Words, ShelvedUntil), null);
    }

    /// <summary>Goes on from its last step, as a journal gives it after a restart. Whether the condition holds is not known then: one that held counts as over until it is found again.</summary>
    public void Resume(AlarmStep last)
    {
        outOfService = last.To == AlarmState.OutOfService;
        ShelvedUntil = last.Until;
        Words = last.Words;
        Beneath = last.Beneath switch
        {
            AlarmState.Unacknowledged => row.Latches ? AlarmState.LatchedUnacknowledged : AlarmState.ReturnedUnacknowledged,
            AlarmState.Acknowledged => row.Latches ? AlarmState.LatchedAcknowledged : AlarmState.Normal,
            var other => other,
        };
    }

    private string? Apply(in AlarmInput input, out bool changed)
    {
        changed = true;
        switch (input.Act)
        {
            case AlarmAct.Activate:
                changed = !Active;
                ActiveSince = changed ? input.At : ActiveSince;
                Beneath = changed ? AlarmState.Unacknowledged : Beneath;
                return null;
            case AlarmAct.Clear:
                changed = Active;
                Beneath = changed ? Over() : Beneath;
                return null;
            case AlarmAct.Acknowledge:
                return Acknowledge();
            case AlarmAct.Reset:
                return Reset();
            case AlarmAct.Shelve:
                return Shelve(input);
            case AlarmAct.Unshelve:
            case AlarmAct.ShelfEnds:
                changed = ShelvedUntil is not null && (input.Act == AlarmAct.Unshelve || Over(input));
                ShelvedUntil = changed ? null : ShelvedUntil;
                return changed || input.Act == AlarmAct.ShelfEnds ? null : $"{id} is not shelved";
            case AlarmAct.Suppress:
            case AlarmAct.Unsuppress:
                changed = suppressed != (input.Act == AlarmAct.Suppress);
                suppressed ^= changed;
                return null;
            default:
                changed = outOfService != (input.Act == AlarmAct.TakeOutOfService);
                outOfService ^= changed;
                return changed ? null : $"{id} is {(outOfService ? "out of service already" : "in service already")}";
        }
    }

    private AlarmState Over() => (row.Latches, Beneath) switch
    {
        (true, AlarmState.Unacknowledged) => AlarmState.LatchedUnacknowledged,
        (true, _) => AlarmState.LatchedAcknowledged,
        (false, AlarmState.Unacknowledged) when seen => AlarmState.ReturnedUnacknowledged,
        _ => AlarmState.Normal,
    };

    private string? Acknowledge()
    {
        if (Masked)
        {
            return $"{id} is {(outOfService ? "out of service" : suppressed && ShelvedUntil is null ? "suppressed by design" : "shelved")}: there is nothing to acknowledge";
        }

        AlarmState? next = Beneath switch
        {
            AlarmState.Unacknowledged => AlarmState.Acknowledged,
            AlarmState.ReturnedUnacknowledged => AlarmState.Normal,
            AlarmState.LatchedUnacknowledged => AlarmState.LatchedAcknowledged,
            _ => null,
        };
        Beneath = next ?? Beneath;
        return next is null ? $"{id} has nothing to acknowledge" : null;
    }

    private string? Reset()
    {
        if (Beneath != AlarmState.LatchedAcknowledged)
        {
            return Active ? $"{id} still stands: what causes it must go first"
                : Beneath == AlarmState.LatchedUnacknowledged ? $"{id} is not acknowledged yet: acknowledge it first"
                : $"{id} has not latched: there is nothing to reset";
        }

        Beneath = AlarmState.Normal;
        return null;
    }

    /// <summary>Says whether a shelf is over: its end has come, whoever says so has seen it come by another clock, or it lies so far ahead that this clock must have been set back.</summary>
    private bool Over(in AlarmInput input) => ShelvedUntil <= input.At || ShelvedUntil <= input.Until || ShelvedUntil - input.At > row.LongestShelf;

    private string? Shelve(in AlarmInput input)
    {
        if (outOfService)
        {
            return $"{id} is out of service: there is nothing to shelve";
        }

        if (input.Until is not { } until || until <= input.At)
        {
            return $"{id}: a shelf needs an end that lies ahead";
        }

        if (until - input.At > row.LongestShelf)
        {
            return FormattableString.Invariant($"{id} may be shelved for {row.LongestShelf.TotalHours:0.#} h at most");
        }

        ShelvedUntil = until;
        return null;
    }
}
