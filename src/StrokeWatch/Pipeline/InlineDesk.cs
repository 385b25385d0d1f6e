namespace StrokeWatch.Pipeline;

/// <summary>A desk that does everything at once and on the spot: for replay, whose answers must not depend on who was quicker.</summary>
internal sealed class InlineDesk : IDesk
{
    /// <inheritdoc/>
    public bool Post(Func<Action?> work)
    {
        work()?.Invoke();
        return true;
    }

    /// <inheritdoc/>
    public void Deliver()
    {
    }

    /// <inheritdoc/>
    public void Finish()
    {
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}
