namespace StrokeWatch.Sensors.Serial;

/// <summary>An open place that bytes come from; it belongs to one reading thread.</summary>
public interface IByteSource : IDisposable
{
    /// <summary>Waits at most about 0.2 s for bytes and says how many it put into the buffer; it never throws for what the device does.</summary>
    ReadStatus Read(Span<byte> buffer, out int count);

    /// <summary>Gets why the source is gone and what to do, in words without its name; null where nobody knows more than that it is.</summary>
    string? Fate => null;
}
