namespace StrokeWatch.Sensors.Serial;

/// <summary>An open place that bytes come from; it belongs to one reading thread.</summary>
public interface IByteSource : IDisposable
{
    /// <summary>Waits at most about 0.2 s for bytes and says how many it put into the buffer; it never throws for what the device does.</summary>
    ReadStatus Read(Span<byte> buffer, out int count);
}
