using System.IO.Ports;

namespace StrokeWatch.Sensors.Serial;

/// <summary>The names of the serial ports there are.</summary>
public static class SerialPortNames
{
    private static readonly string[] LastingFolders = ["/dev/serial/by-id", "/dev/serial/by-path"];

    /// <summary>Lists the ports, names that stay the same after replugging first: by identity, by socket, then as the system numbers them.</summary>
    public static IReadOnlyList<string> List()
    {
        var names = new List<string>();
        foreach (var folder in LastingFolders)
        {
            names.AddRange(Entries(folder));
        }

        try
        {
            names.AddRange(SerialPort.GetPortNames().Order(StringComparer.Ordinal));
        }
        catch (Exception fault) when (fault is System.ComponentModel.Win32Exception or IOException or UnauthorizedAccessException or PlatformNotSupportedException)
        {
            // A system that does not tell its ports still has those under lasting names.
        }

        return names;
    }

    private static IEnumerable<string> Entries(string folder)
    {
        try
        {
            return Directory.Exists(folder) ? Directory.GetFileSystemEntries(folder).Order(StringComparer.Ordinal) : [];
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}
