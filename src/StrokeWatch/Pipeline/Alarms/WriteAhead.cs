using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>
/// Lets steps take effect only once they are written, in their order, and without ever waiting: who owns it looks again and again. A step that is not written within a
/// quarter of a second takes effect all the same, because an alarm that nobody sees is worse than one that is not written.
/// </summary>
internal sealed class WriteAhead(IAlarmJournal journal, TimeProvider time)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.25);

    /// <summary>A disk may be busy for a moment; later than this it is in trouble.</summary>
    private static readonly TimeSpan Trouble = TimeSpan.FromSeconds(5);

    private readonly Queue<(Task<bool> Written, long Asked, Action Effect)> waiting = new();
    private readonly Queue<(Task<bool> Written, long Asked)> late = new();

    /// <summary>Gets whether steps cannot be written: one was given up, or waits for longer than a busy disk takes. Over as soon as one is written again.</summary>
    public bool Failing { get; private set; }

    /// <summary>Gets how many steps took effect unwritten; some may have been written later.</summary>
    public long Unwritten { get; private set; }

    /// <summary>Takes a step and what is to happen then.</summary>
    public void Add(AlarmStep step, Action effect) => waiting.Enqueue((journal.Write(step), time.GetTimestamp(), effect));

    /// <summary>Lets those take effect that may.</summary>
    public void Deliver()
    {
        while (late.TryPeek(out var first) && first.Written.IsCompleted)
        {
            Failing = !late.Dequeue().Written.Result;
        }

        Failing |= late.TryPeek(out var oldest) && journal.Ready && time.GetElapsedTime(oldest.Asked) >= Trouble;
        while (waiting.TryPeek(out var next) && (next.Written.IsCompleted || Failing || time.GetElapsedTime(next.Asked) >= Patience))
        {
            TakeEffect(waiting.Dequeue());
        }
    }

    /// <summary>Waits for what is left, as long as the patience allows, and lets all of it take effect.</summary>
    public void Finish()
    {
        // Only real time passes here: a clock of the tests' own would never come to the end of the patience.
        _ = Task.WaitAll([.. waiting.Select(step => (Task)step.Written)], Patience);
        while (waiting.TryDequeue(out var next))
        {
            TakeEffect(next);
        }
    }

    private void TakeEffect((Task<bool> Written, long Asked, Action Effect) next)
    {
        if (next.Written.IsCompleted)
        {
            Failing = !next.Written.Result;
            Unwritten += Failing ? 1 : 0;
        }
        else
        {
            Unwritten++;
            late.Enqueue((next.Written, next.Asked));
        }

        next.Effect();
    }
}
