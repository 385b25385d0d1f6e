using System.Diagnostics;
using System.Runtime.Versioning;
using System.Text;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Sensors.Serial;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Session;

/// <summary>A person at a terminal: presses keys when something stands on the screen.</summary>
[SupportedOSPlatform("linux")]
internal sealed class Keyboard : IDisposable
{
    private const double PatienceSeconds = 60;

    private readonly PseudoTerminal terminal = PseudoTerminal.Create();
    private readonly StringBuilder shown = new();
    private readonly Running program;
    private int seen;

    public Keyboard(string folder, params string[] arguments) => program = Running.StartAt(terminal.SlavePath, folder, arguments);

    public string Screen
    {
        get
        {
            Look();
            return shown.ToString();
        }
    }

    /// <summary>Waits until the program has asked a question of that title after what was seen before; gives all that came up to its prompt.</summary>
    public async Task<string> Sees(string title)
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed.TotalSeconds < PatienceSeconds)
        {
            Look();
            var text = shown.ToString();
            var at = text.IndexOf(title, seen, StringComparison.Ordinal);
            if (at >= 0 && (text.IndexOf("q leave", at, StringComparison.Ordinal) is >= 0 and var asked && text[asked..].TrimEnd('\r', '\n').Contains('\n')))
            {
                var from = seen;
                seen = text.Length;
                return text[from..];
            }

            Assert.False(program.Ended && terminalIsQuiet(), $"the program ended while \"{title}\" was waited for; on the screen:\n{text}\n{program.Error}");
            await Task.Delay(30);
        }

        Assert.Fail($"no \"{title}\" within {PatienceSeconds} s; on the screen:\n{shown}\n{program.Error}");
        return "";

        bool terminalIsQuiet()
        {
            var before = shown.Length;
            Look();
            return shown.Length == before;
        }
    }

    /// <summary>Waits until some text is on the screen after what was seen before.</summary>
    public async Task<string> Reads(string words)
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed.TotalSeconds < PatienceSeconds)
        {
            Look();
            if (shown.ToString().IndexOf(words, seen, StringComparison.Ordinal) is >= 0 and var at)
            {
                seen = at + words.Length;
                return shown.ToString()[..seen];
            }

            await Task.Delay(30);
        }

        Assert.Fail($"no \"{words}\" within {PatienceSeconds} s; on the screen:\n{shown}\n{program.Error}");
        return "";
    }

    /// <summary>Presses keys.</summary>
    public void Presses(string keys) => Assert.True(terminal.WriteAll(Encoding.UTF8.GetBytes(keys), 5000));

    /// <summary>Presses Enter alone, not out of habit after a key.</summary>
    public async Task PressesEnter()
    {
        await Task.Delay(600);
        Presses("\r");
    }

    /// <summary>Kills the program as the kernel does where memory is short.</summary>
    public async Task Kills()
    {
        program.Signal(Running.Kill);
        Assert.Equal(137, (await program.End()).Status);
    }

    /// <summary>Closes the terminal's window.</summary>
    public async Task<int> HangsUp()
    {
        terminal.Dispose();
        return (await program.End()).Status;
    }

    /// <summary>Waits for the end and gives the exit status; nothing may stand on standard error.</summary>
    public async Task<int> Ends()
    {
        var end = program.End();
        while (!end.IsCompleted)
        {
            Look();
            await Task.Delay(20);
        }

        Look();
        var outcome = await end;
        Assert.Equal("", outcome.Error);
        return outcome.Status;
    }

    public void Dispose()
    {
        program.Dispose();
        terminal.Dispose();
    }

    private void Look()
    {
        var buffer = new byte[8192];
        while (terminal.Read(buffer, out var count) == ReadStatus.Data)
        {
            shown.Append(Encoding.UTF8.GetString(buffer, 0, count));
        }
    }
}
