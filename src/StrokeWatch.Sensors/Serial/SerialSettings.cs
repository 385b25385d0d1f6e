namespace StrokeWatch.Sensors.Serial;

/// <summary>A serial port and its speed; always eight data bits, no parity, one stop bit, no flow control.</summary>
public sealed record SerialSettings
{
    /// <summary>Gets the path or name, such as <c>/dev/serial/by-id/…</c> or <c>COM3</c>.</summary>
    public required string Path { get; init; }

    /// <summary>Gets the baud rate, 921600 by default; a port that is USB all the way does not heed it.</summary>
    public int BaudRate { get; init; } = 921600;
}
