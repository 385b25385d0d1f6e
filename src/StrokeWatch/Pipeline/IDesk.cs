namespace StrokeWatch.Pipeline;

/// <summary>Where work is done that may take a while, and that the measurement must not wait for.</summary>
internal interface IDesk : IDisposable
{
    /// <summary>Takes work; pieces are done one after the other, in order.</summary>
    /// <param name="work">The work; it gives what is then to be done on the measuring thread, null for nothing.</param>
    /// <returns>False where it was dropped, because too much waits already; it is counted.</returns>
    bool Post(Func<Action?> work);

    /// <summary>Does what finished work has left to be done here: called by the measuring thread, between two reads of the source.</summary>
    void Deliver();

    /// <summary>Waits until all work is done, within a patience, and delivers it.</summary>
    void Finish();
}
