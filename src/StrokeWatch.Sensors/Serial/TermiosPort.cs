using System.Runtime.InteropServices;

namespace StrokeWatch.Sensors.Serial;

/// <summary>A serial port on Linux: raw, at any baud rate, read by poll and read on the caller's thread.</summary>
/// <remarks>
/// A device that is pulled out ends the wait at once. System.IO.Ports is not used here because it goes on calling such a port open
/// (dotnet/runtime#121627) and spends several times the processor time (dotnet/runtime#2379).
/// </remarks>
internal sealed class TermiosPort : IByteSource
{
    private const int PatienceMilliseconds = 200;
    private readonly Descriptor descriptor;

    private TermiosPort(Descriptor descriptor) => this.descriptor = descriptor;

    /// <summary>Opens a port for this program alone; what lay in its input queue is thrown away.</summary>
    public static OpenResult Open(SerialSettings settings)
    {
        var path = settings.Path;
        var descriptor = new Descriptor(Libc.Open(path, Libc.ReadWrite | Libc.NoControllingTty | Libc.NonBlocking | Libc.CloseOnExec));
        if (descriptor.IsInvalid)
        {
            return Failed(path);
        }

        var result = Prepare(descriptor, settings) ?? OpenResult.Opened(new TermiosPort(descriptor));
        if (result.Source is null)
        {
            descriptor.Dispose();
        }

        return result;
    }

    /// <inheritdoc/>
    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        count = 0;
        if (Libc.AwaitBytes(descriptor, PatienceMilliseconds, out var came) is { } instead)
        {
            return instead;
        }

        while (true)
        {
            var read = Libc.Read(descriptor, buffer, buffer.Length);
            if (read > 0)
            {
                count = (int)read;
                return ReadStatus.Data;
            }

            // Zero bytes is the kernel's word for a hang-up.
            var error = read == 0 ? 0 : Marshal.GetLastPInvokeError();
            if (error != Libc.Interrupted)
            {
                return error == Libc.TryAgain && (came & Libc.PollGone) == 0 ? ReadStatus.Nothing : ReadStatus.Closed;
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // A pseudo-terminal whose master lives on would stay exclusive, and shut out everybody but root, after this close.
        if (!descriptor.IsClosed)
        {
            _ = Libc.Ioctl(descriptor, Libc.NotExclusive, 0);
            descriptor.Dispose();
        }
    }

    private static OpenResult? Prepare(Descriptor descriptor, SerialSettings settings)
    {
        var termios = default(Termios2);
        if (Libc.Ioctl(descriptor, Libc.GetTermios2, ref termios) != 0)
        {
            return Failed(settings.Path);
        }

        // The lock stops a second copy even of root, whom the exclusive mode does not stop.
        if (Libc.Lock(descriptor, Libc.LockExclusiveAtOnce) != 0 || Libc.Ioctl(descriptor, Libc.Exclusive, 0) != 0)
        {
            return Failed(settings.Path);
        }

        termios.MakeRaw(settings.BaudRate);
        if (Libc.Ioctl(descriptor, Libc.SetTermios2, ref termios) != 0 || Libc.Ioctl(descriptor, Libc.GetTermios2, ref termios) != 0)
        {
            return Failed(settings.Path);
        }

        // An asynchronous line bears about 3 % of difference between both ends: common practice, no source.
        if (Math.Abs((double)termios.OutputSpeed - settings.BaudRate) > 0.03 * settings.BaudRate)
        {
            return OpenResult.Failed(OpenFault.BaudRate, settings.Path, $"asked for {settings.BaudRate} baud, the port gives {termios.OutputSpeed}");
        }

        _ = Libc.Ioctl(descriptor, Libc.FlushQueues, Libc.FlushInput);
        return null;
    }

    private static OpenResult Failed(string path)
    {
        var error = Marshal.GetLastPInvokeError();
        var fault = error switch
        {
            2 or 5 or 6 or 19 or 20 => OpenFault.Missing,      // ENOENT, EIO, ENXIO, ENODEV, ENOTDIR
            1 or 13 => OpenFault.NoPermission,                 // EPERM, EACCES
            Libc.TryAgain or 16 => OpenFault.Busy,             // EAGAIN of the lock, EBUSY
            21 or 22 or 25 => OpenFault.NotAPort,              // EISDIR, EINVAL, ENOTTY
            _ => OpenFault.Other,
        };
        return OpenResult.Failed(fault, path, Marshal.GetPInvokeErrorMessage(error));
    }
}
