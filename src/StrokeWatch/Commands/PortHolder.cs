using System.Globalization;

namespace StrokeWatch.Commands;

/// <summary>Tells which programs have a device file open, by the kernel's list of open files; programs of other users are seen by root alone.</summary>
internal static class PortHolder
{
    /// <summary>Gives "name (process number)" of each, but not of this program; none where the system has no such list.</summary>
    public static IReadOnlyList<string> Of(string device)
    {
        if (!OperatingSystem.IsLinux())
        {
            return [];
        }

        var path = Resolved(device);
        var found = new List<string>();
        foreach (var folder in Directory.EnumerateDirectories("/proc"))
        {
            if (int.TryParse(Path.GetFileName(folder), NumberStyles.None, CultureInfo.InvariantCulture, out var process) && process != Environment.ProcessId && Holds(folder, path))
            {
                found.Add(string.Create(CultureInfo.InvariantCulture, $"{Name(folder)} (process {process})"));
            }
        }

        return found;
    }

    private static string Resolved(string device)
    {
        try
        {
            return File.ResolveLinkTarget(device, returnFinalTarget: true)?.FullName ?? Path.GetFullPath(device);
        }
        catch (IOException)
        {
            return device;
        }
    }

    private static bool Holds(string folder, string path)
    {
        try
        {
            return Directory.EnumerateFiles(Path.Combine(folder, "fd")).Any(file => new FileInfo(file).LinkTarget == path);
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            // It ended meanwhile, or is another user's.
            return false;
        }
    }

    private static string Name(string folder)
    {
        try
        {
            return File.ReadAllText(Path.Combine(folder, "comm")).Trim();
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            return "a program";
        }
    }
}
