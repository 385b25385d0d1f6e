using System.Runtime.InteropServices;

namespace StrokeWatch.Sensors.Serial;

/// <summary>The calls of the C library that ports and pseudo-terminals need, and the kernel's numbers for them.</summary>
/// <remarks>Numbers are those of asm-generic, which x86, ARM and RISC-V share. Source: the kernel's UAPI headers.</remarks>
internal static partial class Libc
{
    public const int ReadWrite = 0x2;
    public const int NoControllingTty = 0x100;
    public const int NonBlocking = 0x800;
    public const int CloseOnExec = 0x80000;

    public const nuint GetTermios2 = 0x802C542A;
    public const nuint SetTermios2 = 0x402C542B;
    public const nuint FlushQueues = 0x540B;
    public const nuint Exclusive = 0x540C;
    public const nuint NotExclusive = 0x540D;
    public const nint FlushInput = 0;
    public const int LockExclusiveAtOnce = 2 | 4;

    public const short PollIn = 0x1;
    public const short PollOut = 0x4;
    public const short PollGone = 0x8 | 0x10 | 0x20;

    public const int Interrupted = 4;
    public const int TryAgain = 11;

    private const string Library = "libc";

    [LibraryImport(Library, EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    public static partial int Open(string path, int flags);

    [LibraryImport(Library, EntryPoint = "close", SetLastError = true)]
    public static partial int Close(int descriptor);

    [LibraryImport(Library, EntryPoint = "read", SetLastError = true)]
    public static partial nint Read(Descriptor descriptor, Span<byte> buffer, nint count);

    [LibraryImport(Library, EntryPoint = "write", SetLastError = true)]
    public static partial nint Write(Descriptor descriptor, ReadOnlySpan<byte> buffer, nint count);

    [LibraryImport(Library, EntryPoint = "ioctl", SetLastError = true)]
    public static partial int Ioctl(Descriptor descriptor, nuint request, nint argument);

    [LibraryImport(Library, EntryPoint = "ioctl", SetLastError = true)]
    public static partial int Ioctl(Descriptor descriptor, nuint request, ref Termios2 argument);

    [LibraryImport(Library, EntryPoint = "flock", SetLastError = true)]
    public static partial int Lock(Descriptor descriptor, int operation);

    [LibraryImport(Library, EntryPoint = "posix_openpt", SetLastError = true)]
    public static partial int OpenPseudoTerminal(int flags);

    [LibraryImport(Library, EntryPoint = "grantpt", SetLastError = true)]
    public static partial int Grant(Descriptor master);

    [LibraryImport(Library, EntryPoint = "unlockpt", SetLastError = true)]
    public static partial int Unlock(Descriptor master);

    [LibraryImport(Library, EntryPoint = "ptsname_r", SetLastError = true)]
    public static partial int SlaveName(Descriptor master, Span<byte> name, nint size);

    /// <summary>Waits for events on a descriptor; gives what came, 0 where nothing did, -1 where the call failed.</summary>
    public static int Wait(Descriptor descriptor, short events, int milliseconds)
    {
        var added = false;
        try
        {
            descriptor.DangerousAddRef(ref added);
            var asked = new Asked { Descriptor = (int)descriptor.DangerousGetHandle(), Events = events };
            int ready;
            do
            {
                ready = Poll(ref asked, 1, milliseconds);
            }
            while (ready < 0 && Marshal.GetLastPInvokeError() == Interrupted);

            return ready > 0 ? asked.Came : ready;
        }
        finally
        {
            if (added)
            {
                descriptor.DangerousRelease();
            }
        }
    }

    /// <summary>Waits for bytes on a descriptor; null where a read is due, and else what there is to say instead of reading.</summary>
    public static ReadStatus? AwaitBytes(Descriptor descriptor, int milliseconds, out int came)
    {
        came = descriptor.IsClosed ? -1 : Wait(descriptor, PollIn, milliseconds);
        return came > 0 ? null : came == 0 ? ReadStatus.Nothing : ReadStatus.Closed;
    }

    [LibraryImport(Library, EntryPoint = "poll", SetLastError = true)]
    private static partial int Poll(ref Asked asked, nuint count, int milliseconds);

    private struct Asked
    {
        public int Descriptor;
        public short Events;
        public short Came;
    }
}
