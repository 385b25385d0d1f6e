using System.Runtime.InteropServices;

namespace StrokeWatch.Benchmarks;

/// <summary>Processor time, user and system, as the kernel accounts it (getrusage of POSIX).</summary>
internal static class ProcessorTime
{
    private const int Self = 0, EndedChildren = -1;

    /// <summary>Gives this process's, in s.</summary>
    public static double Own() => Of(Self);

    /// <summary>Gives that of all children that have ended, in s.</summary>
    public static double OfEndedChildren() => Of(EndedChildren);

    private static double Of(int whose)
    {
        if (GetUsage(whose, out var usage) != 0)
        {
            throw new InvalidOperationException("getrusage was refused; this command needs Linux");
        }

        return usage.UserSeconds + usage.SystemSeconds + 1e-6 * (usage.UserMicroseconds + usage.SystemMicroseconds);
    }

    [DllImport("libc", EntryPoint = "getrusage")]
    private static extern int GetUsage(int whose, out Usage usage);

    /// <summary>The kernel's struct on 64-bit Linux; of its fourteen later fields none is read here.</summary>
    [StructLayout(LayoutKind.Sequential, Size = 144)]
    private struct Usage
    {
        public long UserSeconds;
        public long UserMicroseconds;
        public long SystemSeconds;
        public long SystemMicroseconds;
    }
}
