namespace StrokeWatch.Benchmarks.Sturdy;

/// <summary>A clock that goes on only as it is driven; timers that are due go off on the thread that drives it.</summary>
internal sealed class DrivenTime : TimeProvider
{
    private static readonly DateTimeOffset Start = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    private readonly Lock gate = new();
    private readonly List<Timer> timers = [];
    private long ticks;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    public override DateTimeOffset GetUtcNow() => Start.AddTicks(Interlocked.Read(ref ticks));

    public override long GetTimestamp() => Interlocked.Read(ref ticks);

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new Timer(this, callback, state);
        timer.Change(dueTime, period);
        lock (gate)
        {
            timers.Add(timer);
        }

        return timer;
    }

    /// <summary>Drives it on.</summary>
    public void Advance(TimeSpan by)
    {
        var now = Interlocked.Add(ref ticks, by.Ticks);
        Timer[] due;
        lock (gate)
        {
            due = [.. timers.Where(timer => timer.Due <= now)];
        }

        foreach (var timer in due)
        {
            timer.GoOff(now);
        }
    }

    private sealed class Timer(DrivenTime time, TimerCallback callback, object? state) : ITimer
    {
        private long period;

        public long Due { get; private set; } = long.MaxValue;

        public void GoOff(long now)
        {
            Due = period > 0 ? Math.Max(Due + period, now) : long.MaxValue;
            callback(state);
        }

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            this.period = period.Ticks;
            Due = dueTime == Timeout.InfiniteTimeSpan ? long.MaxValue : time.GetTimestamp() + dueTime.Ticks;
            return true;
        }

        public void Dispose()
        {
            lock (time.gate)
            {
                time.timers.Remove(this);
            }
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
