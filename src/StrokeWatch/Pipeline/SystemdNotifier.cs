using System.Globalization;
using System.Net.Sockets;
using System.Text;

namespace StrokeWatch.Pipeline;

/// <summary>Tells systemd how the daemon is, by datagrams to the socket NOTIFY_SOCKET names (sd_notify(3)); without one, every call does nothing.</summary>
internal sealed class SystemdNotifier : IDisposable
{
    private readonly Socket? socket;
    private readonly UnixDomainSocketEndPoint? address;

    /// <summary>Makes the notifier for a socket's name (a leading <c>@</c> means an abstract socket; null or blank for none) and the watchdog's time, if any.</summary>
    public SystemdNotifier(string? socketName, TimeSpan? watchdog = null)
    {
        WatchdogPeriod = watchdog / 2;
        if (string.IsNullOrEmpty(socketName) || socketName[0] is not ('/' or '@'))
        {
            return;
        }

        try
        {
            address = new UnixDomainSocketEndPoint(socketName[0] == '@' ? "\0" + socketName[1..] : socketName);
            socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified) { Blocking = false };
        }
        catch (Exception e) when (e is ArgumentException or SocketException or PlatformNotSupportedException)
        {
            socket = null;
        }
    }

    /// <summary>Gets how often <see cref="Watchdog"/> must be called at least: half the time after which systemd kills; null where it does not watch.</summary>
    public TimeSpan? WatchdogPeriod { get; }

    /// <summary>Makes the notifier from NOTIFY_SOCKET, WATCHDOG_USEC and WATCHDOG_PID.</summary>
    public static SystemdNotifier FromEnvironment()
    {
        var forUs = Environment.GetEnvironmentVariable("WATCHDOG_PID") is not { Length: > 0 } pid
            || pid == Environment.ProcessId.ToString(CultureInfo.InvariantCulture);
        var watched = long.TryParse(
            Environment.GetEnvironmentVariable("WATCHDOG_USEC"), NumberStyles.None, CultureInfo.InvariantCulture, out var microseconds);
        return new(
            Environment.GetEnvironmentVariable("NOTIFY_SOCKET"),
            forUs && watched && microseconds > 0 ? TimeSpan.FromMicroseconds(microseconds) : null);
    }

    /// <summary>Says that the daemon has started; true where it was sent.</summary>
    public bool Ready(string status) => Send("READY=1\nSTATUS=" + Line(status));

    /// <summary>Says that every part of the daemon has made progress; true where it was sent.</summary>
    public bool Watchdog() => Send("WATCHDOG=1");

    /// <summary>Says in a line what the daemon does; true where it was sent.</summary>
    public bool Status(string status) => Send("STATUS=" + Line(status));

    /// <summary>Says that the daemon is about to stop; true where it was sent.</summary>
    public bool Stopping() => Send("STOPPING=1");

    /// <inheritdoc/>
    public void Dispose() => socket?.Dispose();

    private static string Line(string status) => status.ReplaceLineEndings(" ");

    private bool Send(string message)
    {
        if (socket is null || address is null)
        {
            return false;
        }

        try
        {
            socket.SendTo(Encoding.UTF8.GetBytes(message), address);
            return true;
        }
        catch (SocketException)
        {
            // A supervisor that does not listen must not stop the measurement.
            return false;
        }
    }
}
