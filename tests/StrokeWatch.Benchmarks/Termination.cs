using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace StrokeWatch.Benchmarks;

/// <summary>Asks a daemon to end, as its service manager would (SIGTERM).</summary>
[SupportedOSPlatform("linux")]
internal static class Termination
{
    private const int Number = 15;

    /// <summary>Asks it.</summary>
    public static void Ask(Process daemon) => _ = Signal(daemon.Id, Number);

    [DllImport("libc", EntryPoint = "kill")]
    private static extern int Signal(int process, int number);
}
