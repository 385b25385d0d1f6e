namespace StrokeWatch.Pipeline.Ports;

/// <summary>The desk of one of several devices: only the one that leads has its stops and starts read, the others show the same ones.</summary>
internal sealed class LeadDesk(IDesk desk, Func<bool> leads) : IDesk
{
    /// <inheritdoc/>
    public bool Post(Func<Action?> work) => !leads() || desk.Post(work);

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
