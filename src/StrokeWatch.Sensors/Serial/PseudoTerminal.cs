using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using System.Text;

namespace StrokeWatch.Sensors.Serial;

/// <summary>A pseudo-terminal pair of Linux, seen from its master side: what is written here, a reader of <see cref="SlavePath"/> receives.</summary>
/// <remarks>It stands in for a sensor's cable. It does not heed the baud rate. Disposing of it is pulling the plug.</remarks>
[SupportedOSPlatform("linux")]
public sealed class PseudoTerminal : IByteSource, IByteSink
{
    private const int PatienceMilliseconds = 200;
    private readonly Descriptor master;

    private PseudoTerminal(Descriptor master, string slavePath)
    {
        this.master = master;
        SlavePath = slavePath;
    }

    /// <summary>Gets the path that the other side opens.</summary>
    public string SlavePath { get; }

    /// <summary>Makes a pair in raw mode; an <see cref="IOException"/> says where the system has none to give.</summary>
    public static PseudoTerminal Create()
    {
        var master = new Descriptor(Libc.OpenPseudoTerminal(Libc.ReadWrite | Libc.NoControllingTty | Libc.NonBlocking | Libc.CloseOnExec));
        Span<byte> name = stackalloc byte[128];
        var termios = default(Termios2);
        if (master.IsInvalid || Libc.Grant(master) != 0 || Libc.Unlock(master) != 0 || Libc.SlaveName(master, name, name.Length) != 0
            || Libc.Ioctl(master, Libc.GetTermios2, ref termios) != 0)
        {
            throw Refused(master);
        }

        termios.MakeRaw(38400);
        if (Libc.Ioctl(master, Libc.SetTermios2, ref termios) != 0)
        {
            throw Refused(master);
        }

        return new(master, Encoding.UTF8.GetString(name[..name.IndexOf((byte)0)]));
    }

    /// <inheritdoc/>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        while (!master.IsClosed)
        {
            var written = Libc.Write(master, bytes, bytes.Length);
            if (written >= 0 || Marshal.GetLastPInvokeError() != Libc.Interrupted)
            {
                return (int)Math.Max(written, 0);
            }
        }

        return 0;
    }

    /// <summary>Writes all bytes, waiting for room; false where none came within the patience given in ms.</summary>
    public bool WriteAll(ReadOnlySpan<byte> bytes, int patienceMilliseconds)
    {
        while (!bytes.IsEmpty)
        {
            var written = Write(bytes);
            bytes = bytes[written..];

            if (written == 0 && (master.IsClosed || !HasRoom(patienceMilliseconds)))
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        count = 0;
        if (Libc.AwaitBytes(master, PatienceMilliseconds, out var came) is { } instead)
        {
            return instead;
        }

        var read = Libc.Read(master, buffer, buffer.Length);
        count = (int)Math.Max(read, 0);
        return read > 0 ? ReadStatus.Data : (came & Libc.PollGone) != 0 ? ReadStatus.Closed : ReadStatus.Nothing;
    }

    /// <inheritdoc/>
    public void Dispose() => master.Dispose();

    /// <summary>Waits for room; a hang-up of the other side ends the wait at once, each time, and is none.</summary>
    private bool HasRoom(int patienceMilliseconds) =>
        Libc.Wait(master, Libc.PollOut, patienceMilliseconds) is > 0 and var came && (came & Libc.PollOut) != 0;

    private static IOException Refused(Descriptor master)
    {
        var message = Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError());
        master.Dispose();
        return new($"pseudo-terminal: {message}; is /dev/ptmx there, and devpts mounted?");
    }
}
