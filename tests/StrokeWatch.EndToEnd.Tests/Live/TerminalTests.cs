using System.Runtime.Versioning;
using System.Text;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Sensors.Serial;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class TerminalTests(ITestOutputHelper output)
{
    private const string EraseToEnd = "\u001b[K";

    [SkippableFact]
    public async Task On_a_terminal_the_live_line_is_drawn_again_in_its_place_and_Ctrl_C_ends_in_order()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var folder = new TempFolder();
        using var terminal = PseudoTerminal.Create();
        using var demo = Running.StartOn(terminal.SlavePath, folder.Path, "watch", "--demo", "--demo-folder", "short");
        var shown = new StringBuilder();
        var drawn = await demo.Until(() => Look(terminal, shown) is var lines && lines.Length >= 4 ? lines : null, "live line drawn four times");
        demo.Signal(Running.Interrupt);
        var outcome = await demo.End(TimeSpan.FromSeconds(20));
        Look(terminal, shown);
        output.WriteLine(shown.ToString().Replace("\u001b", "ESC", StringComparison.Ordinal).Replace("\r", "CR", StringComparison.Ordinal));
        Assert.Equal(0, outcome.Status);
        outcome.ShouldBePlain();
        foreach (var line in drawn)
        {
            Assert.Contains("Cullet feeder", line, StringComparison.Ordinal);
            Assert.Contains(" mm (0.0", line, StringComparison.Ordinal);
            Assert.Contains(" in) ±0.0", line, StringComparison.Ordinal);
            Assert.Contains("in band", line, StringComparison.Ordinal);
            Assert.InRange(line.Length, 60, 119);
        }

        Assert.Contains("Over. 0 alarms were raised.", shown.ToString(), StringComparison.Ordinal);
        Assert.True(File.Exists(folder.At("short/demo.db")) && File.Exists(folder.At("short/demo.wav")));
    }

    /// <summary>Reads what has come and gives the lines drawn in place: from a carriage return to the erasing of the rest, no line feed between.</summary>
    private static string[] Look(PseudoTerminal terminal, StringBuilder shown)
    {
        var buffer = new byte[4096];
        while (terminal.Read(buffer, out var count) == ReadStatus.Data)
        {
            shown.Append(Encoding.UTF8.GetString(buffer, 0, count));
        }

        return [.. shown.ToString().Split('\r').Skip(1)
            .Where(part => part.EndsWith(EraseToEnd, StringComparison.Ordinal) && part.Length > EraseToEnd.Length && !part.Contains('\n'))
            .Select(part => part[..^EraseToEnd.Length])];
    }
}
