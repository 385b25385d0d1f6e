namespace StrokeWatch.Sensors.Serial;

/// <summary>A place that bytes are sent to.</summary>
public interface IByteSink
{
    /// <summary>Takes as many bytes as there is room for, without waiting, and says how many; 0 where it is full or gone.</summary>
    int Write(ReadOnlySpan<byte> bytes);
}
