using System.Runtime.Versioning;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>Small seeded parts of the long runs, which are commands of the benchmarks and take as long as one lets them.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class KilledDaemonTests(ITestOutputHelper output)
{
    [SkippableFact]
    public async Task A_daemon_killed_five_times_keeps_every_row_that_had_been_read_and_notes_how_long_nothing_was_written()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        var said = await Benchmarks.Run(output, "kill-study", "5", "4711", Path.Combine(AppContext.BaseDirectory, "strokewatch.dll"));

        // How soon a start writes hangs on the machine and is the study's own figure; what is lost or not noted does not.
        Assert.Contains("rows lost, changed, or a file damaged: 0 times", said, StringComparison.Ordinal);
        Assert.DoesNotContain("MISSED", string.Join('\n', said.Split('\n').Where(line => !line.StartsWith("first row", StringComparison.Ordinal))), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("frames")]
    [InlineData("lines")]
    [InlineData("csv")]
    [InlineData("wav")]
    [InlineData("feeder")]
    [InlineData("watch")]
    [InlineData("http")]
    public async Task A_few_hundred_hostile_inputs_neither_fail_nor_hang_nor_grow(string target)
    {
        var said = await Benchmarks.Run(output, "fuzz", target, "300x", "4711");
        Assert.Contains($"{target}: 300 inputs", said, StringComparison.Ordinal);
        Assert.DoesNotContain("MISSED", said, StringComparison.Ordinal);
    }
}
