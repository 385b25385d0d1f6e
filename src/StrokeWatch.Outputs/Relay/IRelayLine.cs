namespace StrokeWatch.Outputs.Relay;

/// <summary>The line that drives the relay; disposing it leaves the relay de-energised.</summary>
public interface IRelayLine : IDisposable
{
    /// <summary>Energises the relay or lets it drop.</summary>
    /// <exception cref="IOException">The line cannot be written.</exception>
    void Write(bool energised);
}
