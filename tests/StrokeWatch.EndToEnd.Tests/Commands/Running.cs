using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>The built program as a child process, its streams gathered as they come; whoever forgets to end it has it killed.</summary>
internal sealed class Running : IDisposable
{
    public const int Interrupt = 2;
    public const int Kill = 9;
    public const int Terminate = 15;
    public const int Stop = 19;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly Process process;
    private readonly StringBuilder output = new();
    private readonly StringBuilder error = new();

    private Running(ProcessStartInfo start)
    {
        start.RedirectStandardInput = true;
        start.RedirectStandardOutput = true;
        start.RedirectStandardError = true;
        start.StandardOutputEncoding = start.StandardErrorEncoding = new UTF8Encoding(false);

        // Under systemd, as many build machines are, the log would take the journal's form.
        start.Environment.Remove("JOURNAL_STREAM");
        start.Environment.Remove("NOTIFY_SOCKET");
        start.Environment.Remove("WATCHDOG_USEC");
        process = Process.Start(start)!;
        process.StandardInput.Close();
        Streams = Task.WhenAll(Gather(process.StandardOutput, output), Gather(process.StandardError, error));
    }

    public string Out => Snapshot(output);

    public string Error => Snapshot(error);

    public bool Ended => process.HasExited;

    private Task Streams { get; }

    /// <summary>Starts the program in a folder.</summary>
    public static Running Start(string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(Host) { WorkingDirectory = folder };
        foreach (var argument in (string[])["exec", Program, .. arguments])
        {
            start.ArgumentList.Add(argument);
        }

        return new(start);
    }

    /// <summary>Starts the program in a folder with one variable of its environment set.</summary>
    public static Running StartWith(string variable, string value, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(Host, ["exec", Program, .. arguments]) { WorkingDirectory = folder };
        start.Environment[variable] = value;
        return new(start);
    }

    /// <summary>Starts another program than the one beside the tests in a folder, with one variable of its environment set.</summary>
    public static Running StartOther(string folder, string[] command, (string Name, string Value) variable)
    {
        var start = new ProcessStartInfo(command[0], command[1..]) { WorkingDirectory = folder };
        start.Environment[variable.Name] = variable.Value;
        return new(start);
    }

    /// <summary>Starts the program in a group of processes that the kernel limits: the file takes the number of a process that is to belong to it.</summary>
    public static Running StartIn(string members, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo("/bin/sh", ["-c", "echo $$ > \"$1\"; shift; exec \"$@\"", "sh", members, Host, "exec", Program, .. arguments]) { WorkingDirectory = folder };
        return new(start);
    }

    /// <summary>Starts the program with its standard output on a terminal or another file.</summary>
    public static Running StartOn(string terminal, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo("/bin/sh") { WorkingDirectory = folder };
        foreach (var argument in (string[])["-c", "target=$1; shift; exec \"$@\" > \"$target\"", "sh", terminal, Host, "exec", Program, .. arguments])
        {
            start.ArgumentList.Add(argument);
        }

        return new(start);
    }

    /// <summary>Starts the program at a terminal of its own: keys, screen and hang-up are that terminal's.</summary>
    public static Running StartAt(string terminal, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo("/bin/sh") { WorkingDirectory = folder };
        foreach (var argument in (string[])["-c", "target=$1; shift; exec setsid -c \"$@\" < \"$target\" > \"$target\"", "sh", terminal, Host, "exec", Program, .. arguments])
        {
            start.ArgumentList.Add(argument);
        }

        return new(start);
    }

    /// <summary>Runs the program to its end.</summary>
    public static async Task<Outcome> Run(string folder, params string[] arguments)
    {
        using var running = Start(folder, arguments);
        return await running.End();
    }

    /// <summary>Waits for the end.</summary>
    public async Task<Outcome> End(TimeSpan? patience = null)
    {
        try
        {
            await process.WaitForExitAsync().WaitAsync(patience ?? Patience);
        }
        catch (TimeoutException)
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"the program did not end within {(patience ?? Patience).TotalSeconds:0} s; it said:\n{Out}\n{Error}");
        }

        await Streams.WaitAsync(Patience);
        return new(process.ExitCode, Out, Error);
    }

    /// <summary>Waits until something has come true; fails where the program ends before.</summary>
    public async Task<T> Until<T>(Func<T?> found, string what, double seconds = 40)
        where T : class
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed.TotalSeconds < seconds)
        {
            if (found() is { } result)
            {
                return result;
            }

            Assert.False(Ended, $"the program ended while waiting for {what}; it said:\n{Out}\n{Error}");
            await Task.Delay(50);
        }

        Assert.Fail($"no {what} within {seconds} s; the program said:\n{Out}\n{Error}");
        return null!;
    }

    /// <summary>Sends a signal of POSIX.</summary>
    public void Signal(int number) => Assert.Equal(0, SendSignal(process.Id, number));

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit(5000);
        }

        process.Dispose();
    }

    private static string Host => Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet";

    private static string Program => Path.Combine(AppContext.BaseDirectory, "strokewatch.dll");

    [DllImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static extern int SendSignal(int process, int signal);

    private static async Task Gather(StreamReader reader, StringBuilder text)
    {
        var buffer = new char[4096];
        for (int count; (count = await reader.ReadAsync(buffer)) > 0;)
        {
            lock (text)
            {
                text.Append(buffer, 0, count);
            }
        }
    }

    private static string Snapshot(StringBuilder text)
    {
        lock (text)
        {
            return text.ToString();
        }
    }
}
