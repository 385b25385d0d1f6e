using Serilog;

namespace StrokeWatch.Pipeline;

/// <summary>A desk with a thread of its own; what waits is bounded, what does not fit is dropped and counted.</summary>
/// <remarks>The thread is no "nicer" than the measuring one: the garbage collector stops both, and waits for one that is kept from running as long as for any other.</remarks>
internal sealed class BackgroundDesk : IDesk
{
    private const int Most = 16;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly object gate = new();
    private readonly Queue<Func<Action?>> waiting = new();
    private readonly Queue<Action> done = new();
    private readonly ILogger log;
    private readonly Thread thread;
    private bool busy;
    private bool closing;
    private bool troubled;

    /// <summary>Starts the desk's thread.</summary>
    public BackgroundDesk(ILogger log)
    {
        this.log = log;
        thread = new Thread(Run) { IsBackground = true, Name = "desk" };
        thread.Start();
    }

    /// <summary>Gets how many pieces of work were dropped because too much waited.</summary>
    public long Dropped { get; private set; }

    /// <summary>Gets how many pieces of work failed.</summary>
    public long Failed { get; private set; }

    /// <inheritdoc/>
    public bool Post(Func<Action?> work)
    {
        lock (gate)
        {
            if (waiting.Count >= Most || closing)
            {
                Dropped++;
                return false;
            }

            waiting.Enqueue(work);
            Monitor.PulseAll(gate);
            return true;
        }
    }

    /// <inheritdoc/>
    public void Deliver()
    {
        while (Next() is { } deliver)
        {
            deliver();
        }
    }

    /// <inheritdoc/>
    public void Finish()
    {
        // What is delivered may post more.
        while (Idle() is { } idle)
        {
            Deliver();
            if (!idle)
            {
                return;
            }
        }

        Deliver();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (gate)
        {
            closing = true;
            waiting.Clear();
            Monitor.PulseAll(gate);
        }

        thread.Join(Patience);
    }

    /// <summary>Waits until nothing waits to be done; true then, false where patience ran out, null where there is nothing to deliver either.</summary>
    private bool? Idle()
    {
        lock (gate)
        {
            while (busy || waiting.Count > 0)
            {
                if (!Monitor.Wait(gate, Patience))
                {
                    return false;
                }
            }

            return done.Count > 0 ? true : null;
        }
    }

    private Action? Next()
    {
        lock (gate)
        {
            return done.TryDequeue(out var deliver) ? deliver : null;
        }
    }

    private void Run()
    {
        while (Take() is { } work)
        {
            var deliver = Do(work);
            lock (gate)
            {
                busy = false;
                if (deliver is not null)
                {
                    done.Enqueue(deliver);
                }

                Monitor.PulseAll(gate);
            }
        }
    }

    private Func<Action?>? Take()
    {
        lock (gate)
        {
            while (waiting.Count == 0 && !closing)
            {
                Monitor.Wait(gate);
            }

            busy = waiting.TryDequeue(out var work);
            return work;
        }
    }

    private Action? Do(Func<Action?> work)
    {
        try
        {
            return work();
        }
        catch (Exception trouble)
        {
            lock (gate)
            {
                Failed++;
            }

            if (!troubled)
            {
                troubled = true;
                log.Error(trouble, "Work beside the measurement fails; the measurement goes on");
            }

            return null;
        }
    }
}
