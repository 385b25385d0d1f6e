using System.Diagnostics;
using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>What the kernel tells of a running process.</summary>
internal static class ProcessFigures
{
    /// <summary>Gives user and system time of all its threads in s.</summary>
    public static double ProcessorSeconds(Process process)
    {
        process.Refresh();
        return process.TotalProcessorTime.TotalSeconds;
    }

    /// <summary>Gives its resident memory in MiB.</summary>
    public static double ResidentMiB(Process process) => MiB(process, "VmRSS:");

    /// <summary>Gives a line of /proc/PID/status in MiB.</summary>
    public static double MiB(Process process, string key) => double.Parse(
        File.ReadLines($"/proc/{process.Id}/status").Single(line => line.StartsWith(key, StringComparison.Ordinal)).Split((char[])[' ', '\t'], StringSplitOptions.RemoveEmptyEntries)[1],
        CultureInfo.InvariantCulture) / 1024;
}
