using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace StrokeWatch.Benchmarks;

/// <summary>Puts threads before or behind others: the runtime's own priorities do nothing on Linux.</summary>
[SupportedOSPlatform("linux")]
internal static class ThreadPriority
{
    private const int OfThread = 0;

    [ThreadStatic]
    private static bool asked;

    /// <summary>Gets whether every thread that asked was put before others; false without the right to.</summary>
    public static bool Raised { get; private set; } = true;

    /// <summary>Puts the calling thread before others, once.</summary>
    public static void Raise()
    {
        if (!asked)
        {
            asked = true;
            Raised &= Set(OfThread, 0, -10) == 0;
        }
    }

    /// <summary>Of the calling thread with 0 (setpriority(2), Linux: a thread's own attribute).</summary>
    [DllImport("libc", EntryPoint = "setpriority", SetLastError = true)]
    private static extern int Set(int which, int who, int nice);
}
