using System.Runtime.Versioning;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Packaging;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>What the daemon says where systemd's journal listens, which it knows by the variable of systemd.exec(5).</summary>
[SupportedOSPlatform("linux")]
public sealed class JournalTests : IDisposable
{
    private readonly TrayBench bench = new();

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task Every_line_begins_with_its_priority_and_an_alarm_s_is_a_warning()
    {
        bench.Configure("[alarms]\nlost_after_s = 1");
        using var daemon = Running.StartOther(
            bench.Folder.Path, ["/usr/bin/env", "JOURNAL_STREAM=8:4711", Path.Combine(BuiltPackage.Program, "strokewatch"), "watch", "--config", "watch.toml"], ("DOTNET_ROOT", BuiltPackage.Runtime));
        await daemon.Until(() => daemon.Error.Contains("sensor-lost", StringComparison.Ordinal) ? "told" : null, "the alarm in the log");
        daemon.Signal(Running.Terminate);
        var lines = (await daemon.End(TimeSpan.FromSeconds(15))).Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.All(lines, line => Assert.Matches("^<[2-7]>.", line));
        Assert.StartsWith("<4>", lines.First(line => line.Contains("sensor-lost", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.StartsWith("<6>", lines.First(line => line.Contains("not there", StringComparison.Ordinal)), StringComparison.Ordinal);
    }
}
