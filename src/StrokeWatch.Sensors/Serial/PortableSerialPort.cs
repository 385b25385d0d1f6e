using System.IO.Ports;

namespace StrokeWatch.Sensors.Serial;

/// <summary>A serial port by System.IO.Ports, for systems other than Linux.</summary>
/// <remarks>
/// It only reads, because a close after a write on a port that has vanished may never return (dotnet/runtime#100690); it reads with a
/// time limit, never asynchronously, because an abandoned read swallows the next bytes; and it takes every fault but the time limit
/// for the end of the port, because the port goes on calling itself open (dotnet/runtime#121627).
/// </remarks>
internal sealed class PortableSerialPort : IByteSource
{
    private const int PatienceMilliseconds = 200;
    private static readonly TimeSpan ClosePatience = TimeSpan.FromSeconds(2);
    private readonly SerialPort port;
    private bool closed;

    private PortableSerialPort(SerialPort port) => this.port = port;

    /// <summary>Opens a port; what lay in its input queue is thrown away.</summary>
    public static OpenResult Open(SerialSettings settings)
    {
        var path = settings.Path;

        // A missing path and a forbidden one give the same exception on Unix.
        if (path.StartsWith('/') && !File.Exists(path))
        {
            return OpenResult.Failed(OpenFault.Missing, path, string.Empty);
        }

        SerialPort? port = null;
        try
        {
            port = new SerialPort(path, settings.BaudRate) { ReadTimeout = PatienceMilliseconds };
            port.Open();
            RaiseReady(port);
            port.DiscardInBuffer();
            return OpenResult.Opened(new PortableSerialPort(port));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException or InvalidOperationException)
        {
            port?.Dispose();
            return OpenResult.Failed(FaultOf(fault), path, fault.Message);
        }
    }

    /// <inheritdoc/>
    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        count = 0;
        if (closed)
        {
            return ReadStatus.Closed;
        }

        try
        {
            count = port.BaseStream.Read(buffer);
            return count > 0 ? ReadStatus.Data : ReadStatus.Closed;
        }
        catch (TimeoutException)
        {
            return IsThere() ? ReadStatus.Nothing : ReadStatus.Closed;
        }
        catch (Exception fault) when (fault is IOException or InvalidOperationException or UnauthorizedAccessException or OperationCanceledException)
        {
            closed = true;
            return ReadStatus.Closed;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        closed = true;
        var closing = Task.Run(port.Dispose);
        try
        {
            _ = closing.Wait(ClosePatience);
        }
        catch (AggregateException)
        {
            // A port that has vanished may fault on closing; it is gone either way.
        }
    }

    /// <summary>Says whether the port still answers: a read that begins just as the plug is pulled waits its time out, and so would all after it.</summary>
    private bool IsThere()
    {
        try
        {
            return port.BytesToRead >= 0;
        }
        catch (Exception fault) when (fault is IOException or InvalidOperationException or UnauthorizedAccessException)
        {
            closed = true;
            return false;
        }
    }

    /// <summary>Raises the line without which many boards send nothing over USB; virtual ports have none.</summary>
    private static void RaiseReady(SerialPort port)
    {
        try
        {
            port.DtrEnable = true;
        }
        catch (IOException)
        {
        }
    }

    private static OpenFault FaultOf(Exception fault) => fault switch
    {
        FileNotFoundException => OpenFault.Missing,

        // Windows denies access to a port that is in use; Unix to one that the user may not open.
        UnauthorizedAccessException => OperatingSystem.IsWindows() ? OpenFault.Busy : OpenFault.NoPermission,
        ArgumentOutOfRangeException => OpenFault.BaudRate,
        ArgumentException => OpenFault.NotAPort,
        _ => OpenFault.Other,
    };
}
