namespace StrokeWatch.Outputs.Forwarding;

/// <summary>When to look for rows: often for some seconds after something was heard, for it may still be on its way into the store, else seldom.</summary>
internal sealed class RowWatch(TimeProvider clock) : IDisposable
{
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan EagerLook = TimeSpan.FromMilliseconds(20);
    private static readonly TimeSpan EagerFor = TimeSpan.FromSeconds(3);

    private readonly Lock gate = new();
    private readonly SemaphoreSlim wake = new(0, 1);
    private long since;
    private bool eager;
    private long? looked;

    /// <summary>Hears that a row is on its way; any thread may say so, and never waits.</summary>
    public void Hear()
    {
        lock (gate)
        {
            (eager, since) = (true, clock.GetTimestamp());
        }

        Nudge();
    }

    /// <summary>Ends a wait at once; any thread may say so, and never waits.</summary>
    public void Nudge()
    {
        lock (gate)
        {
            if (wake.CurrentCount == 0)
            {
                wake.Release();
            }
        }
    }

    /// <summary>Says whether it is time to look, and takes note: opening the store for every window would cost more than the window.</summary>
    public bool Due()
    {
        lock (gate)
        {
            if (!eager && looked is { } last && clock.GetElapsedTime(last) < Look)
            {
                return false;
            }

            looked = clock.GetTimestamp();
            return true;
        }
    }

    /// <summary>Waits until it is time to look, or something was heard.</summary>
    public Task Wait(CancellationToken stop)
    {
        bool soon;
        lock (gate)
        {
            eager &= clock.GetElapsedTime(since) < EagerFor;
            soon = eager;
        }

        return wake.WaitAsync(soon ? EagerLook : Look, stop);
    }

    /// <inheritdoc/>
    public void Dispose() => wake.Dispose();
}
