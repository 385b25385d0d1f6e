using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>The unit as shipped, as systemd reads it, and the program under what it leaves.</summary>
public sealed class UnitTests
{
    private static readonly string Unit = Path.Combine(Repository.Root, "systemd", "strokewatch.service");

    [SkippableFact]
    public void Its_exposure_is_one_and_a_half_of_ten_at_most()
    {
        Tool.Need("systemd-analyze");
        var (status, output, error) = Tool.Run("systemd-analyze", "security", "--offline=true", "--threshold=15", Unit);
        Assert.True(status == 0, output + error);
        Assert.Contains("Overall exposure level for strokewatch.service", output, StringComparison.Ordinal);

        using var folder = new TempFolder();
        var weaker = folder.Write("strokewatch.service", File.ReadAllText(Unit).Replace("PrivateMounts=yes\n", "", StringComparison.Ordinal).Replace("SystemCallFilter=~@privileged @resources\n", "", StringComparison.Ordinal));
        Assert.NotEqual(0, Tool.Run("systemd-analyze", "security", "--offline=true", "--threshold=15", weaker).Status);
    }

    [SkippableFact]
    public void Systemd_knows_every_word_of_it()
    {
        Tool.Need("systemd-analyze");
        var (_, output, error) = Tool.Run("systemd-analyze", "verify", Unit);
        Assert.DoesNotContain("Unknown", output + error, StringComparison.Ordinal);
        Assert.DoesNotContain("Failed to parse", output + error, StringComparison.Ordinal);
        Assert.DoesNotContain("Invalid", output + error, StringComparison.Ordinal);
    }

    [Fact]
    public void Its_device_classes_have_their_modules_and_groups()
    {
        var unit = File.ReadAllText(Unit);
        var modules = File.ReadAllLines(Path.Combine(Repository.Root, "systemd", "strokewatch-modules.conf"));
        Assert.All([("ttyUSB", "usbserial"), ("ttyACM", "cdc_acm"), ("i2c", "i2c-dev"), ("spi", "spidev")], pair =>
        {
            Assert.Contains($"DeviceAllow=char-{pair.Item1} rw\n", unit, StringComparison.Ordinal);
            Assert.Contains(pair.Item2, modules);
        });
        var groups = unit.Split('\n').Single(line => line.StartsWith("SupplementaryGroups=", StringComparison.Ordinal))["SupplementaryGroups=".Length..].Split(' ');
        var known = File.ReadAllLines(Path.Combine(Repository.Root, "systemd", "strokewatch.sysusers"));
        Assert.All(groups, group => Assert.Contains($"g {group} -", known));
        Assert.Contains("WatchdogSec=", unit, StringComparison.Ordinal);
        Assert.Contains("Type=notify\n", unit, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_native_program_measures_under_the_system_calls_that_it_leaves()
    {
        Skip.If(BuiltPackage.Native is null, "STROKEWATCH_NATIVE names no native program");
        var (status, output, error) = Demonstrate(Unit);
        Assert.True(status is 0 or 1, $"status {status}\n{output}\n{error}");
        Assert.Contains("in band", output, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_program_that_compiles_while_it_runs_is_stopped_by_it_and_measures_once_that_is_allowed()
    {
        Skip.IfNot(BuiltPackage.Native is null, "the program is native");
        using var folder = new TempFolder();

        // The runtime raises its limit of open files as it starts, and takes a refusal for the end; a native program takes no notice.
        var limits = folder.Write("limits.service", File.ReadAllText(Unit).Replace("~@privileged @resources", "~@privileged", StringComparison.Ordinal));
        var lenient = folder.Write("lenient.service", File.ReadAllText(limits).Replace("MemoryDenyWriteExecute=yes", "MemoryDenyWriteExecute=no", StringComparison.Ordinal));
        var (status, output, error) = Demonstrate(lenient);
        Assert.True(status is 0 or 1, $"status {status}\n{output}\n{error}");
        Assert.Contains("in band", output, StringComparison.Ordinal);
        Assert.True(Demonstrate(limits).Status is not (0 or 1));
    }

    private static (int Status, string Out, string Error) Demonstrate(string unit)
    {
        Tool.Need("systemd-analyze", "python3", "timeout");
        using var folder = new TempFolder();
        var confine = Path.Combine(Repository.Root, "tests", "StrokeWatch.EndToEnd.Tests", "Packaging", "confine.py");
        var ended = Tool.Run(
            "timeout",
            ["--preserve-status", "-s", "TERM", "10", "python3", confine, unit, Path.Combine(BuiltPackage.Program, "strokewatch"), "watch", "--demo", "--demo-folder", folder.At("demo"), "--demo-page", "127.0.0.1:0"],
            [("DOTNET_ROOT", BuiltPackage.Runtime)]);
        Skip.If(ended.Status == 77, "libseccomp or the sets of calls are not here");
        return ended;
    }
}
