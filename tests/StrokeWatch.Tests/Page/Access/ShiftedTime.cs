namespace StrokeWatch.Tests.Page.Access;

/// <summary>The real clock, which a test may put forward.</summary>
internal sealed class ShiftedTime : TimeProvider
{
    private long shift;

    public override DateTimeOffset GetUtcNow() => base.GetUtcNow().AddTicks(Interlocked.Read(ref shift));

    public override long GetTimestamp() => base.GetTimestamp() + (long)(Interlocked.Read(ref shift) * (TimestampFrequency / (double)TimeSpan.TicksPerSecond));

    public void Advance(TimeSpan span) => Interlocked.Add(ref shift, span.Ticks);
}
