using System.Runtime.InteropServices;

namespace StrokeWatch.Pipeline;

/// <summary>Lets the calling thread give way to others; the runtime's own thread priorities do nothing on Linux.</summary>
internal static partial class Niceness
{
    private const int ProcessOrThread = 0;
    private const int Nice = 10;

    /// <summary>Lowers the thread's priority; where that cannot be done, nothing happens.</summary>
    public static void GiveWay()
    {
        if (OperatingSystem.IsLinux())
        {
            // Who 0 is the calling thread on Linux, not its process: setpriority(2), "C library/kernel differences".
            _ = SetPriority(ProcessOrThread, 0, Nice);
        }
        else
        {
            Thread.CurrentThread.Priority = ThreadPriority.BelowNormal;
        }
    }

    [LibraryImport("libc", EntryPoint = "setpriority")]
    private static partial int SetPriority(int which, uint who, int priority);
}
