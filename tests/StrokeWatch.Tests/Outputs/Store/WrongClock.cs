namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>A clock whose date is moved while its own time runs on as another's, as a computer's is by a person, a time server or a flat battery.</summary>
internal sealed class WrongClock(TimeProvider inner) : TimeProvider
{
    public TimeSpan Offset { get; set; }

    public override long TimestampFrequency => inner.TimestampFrequency;

    public override DateTimeOffset GetUtcNow() => inner.GetUtcNow() + Offset;

    public override long GetTimestamp() => inner.GetTimestamp();

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => inner.CreateTimer(callback, state, dueTime, period);
}
