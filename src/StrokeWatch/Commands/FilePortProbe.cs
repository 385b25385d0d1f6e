using System.Runtime.InteropServices;

namespace StrokeWatch.Commands;

/// <summary>Looks whether a serial port is there and may be opened, without opening it: opening would raise DTR, which resets many a microcontroller.</summary>
internal sealed partial class FilePortProbe : IPortProbe
{
    private const int ReadAndWrite = 4 | 2;

    /// <inheritdoc/>
    public string? Trouble(string port)
    {
        if (Directory.Exists(port))
        {
            return "is a directory: name the port itself";
        }

        if (OperatingSystem.IsWindows())
        {
            return null;
        }

        if (!File.Exists(port))
        {
            return "is not there: plug the sensor in, or correct `port` (`ls /dev/serial/by-id` lists what is there)";
        }

        return Access(port, ReadAndWrite) == 0
            ? null
            : "may not be opened by this user: add the user to the group that owns it, usually dialout";
    }

    /// <summary>access(2): R_OK is 4, W_OK is 2.</summary>
    [LibraryImport("libc", EntryPoint = "access", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Access(string path, int mode);
}
