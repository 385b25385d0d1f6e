using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>The package's life on a machine: the real dpkg in a copy-on-write copy of this machine, which systemd does not run in.</summary>
public sealed class LifecycleTests(BuiltPackage package) : IClassFixture<BuiltPackage>
{
    private static string Here => Path.Combine(Repository.Root, "tests", "StrokeWatch.EndToEnd.Tests", "Packaging");

    [SkippableFact]
    public void Installed_used_upgraded_removed_and_purged_it_keeps_the_data_until_told_otherwise()
    {
        Tool.Need("dpkg", "unshare", "setpriv", "chroot");
        using var folder = new TempFolder();
        File.Copy(package.Deb, folder.At("one.deb"));
        Tool.Say("dpkg-deb", "-R", package.Deb, folder.At("next"));
        var control = File.ReadAllText(folder.At("next/DEBIAN/control"));
        var version = control.Split('\n').Single(line => line.StartsWith("Version: ", StringComparison.Ordinal))["Version: ".Length..];
        File.WriteAllText(folder.At("next/DEBIAN/control"), control.Replace($"Version: {version}\n", $"Version: {version}+next\n", StringComparison.Ordinal));
        Tool.Say("dpkg-deb", "--root-owner-group", "-Znone", "--build", folder.At("next"), folder.At("two.deb"));
        Directory.Delete(folder.At("next"), recursive: true);
        File.Copy(Path.Combine(Here, "lifecycle.sh"), folder.At("lifecycle.sh"));

        var (status, output, error) = Tool.Run(Path.Combine(Here, "in-a-copy.sh"), ["lifecycle.sh", folder.Path], [("DOTNET_ROOT", BuiltPackage.Runtime)]);
        Skip.If(status == 77, $"this machine lends no copy of itself: {error.Trim()}");
        var said = string.Join('\n', Directory.EnumerateFiles(folder.Path, "*.log").Select(file => $"{file}:\n{File.ReadAllText(file)}"));
        Assert.True(status == 0, $"status {status}\n{output}\n{error}\n{said}");
        var facts = output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split('=', 2)).ToDictionary(pair => pair[0], pair => pair[1]);

        Is("installed", $"installed {version}");
        Is("said_at_install", "1");
        Is("user", "/var/lib/strokewatch:/usr/sbin/nologin");
        Is("groups_known", "4");
        Is("folder", "750 root:strokewatch");
        Is("config", "640 root:strokewatch");
        Is("data", "750 strokewatch:strokewatch");
        Is("enabled", "no");
        Assert.StartsWith(version, facts["version"], StringComparison.Ordinal);

        // The configuration is read and right; its sensor is not there.
        Is("check", "1");
        Assert.Contains("ok       configuration /etc/strokewatch/strokewatch.toml", said, StringComparison.Ordinal);
        Assert.Contains("ok       store /var/lib/strokewatch/strokewatch.db", said, StringComparison.Ordinal);
        Is("demo", "0");
        Assert.Contains("in band", File.ReadAllText(folder.At("demo.log")), StringComparison.Ordinal);
        Assert.EndsWith(" strokewatch:strokewatch", facts["demo_store"], StringComparison.Ordinal);

        Is("upgraded", $"installed {version}+next");
        Is("upgraded_config", "640 root:strokewatch 1");
        Is("upgraded_data", "kept");
        Is("upgraded_says", "0");
        Is("removed", $"config-files {version}+next");
        Is("removed_program", "no no");
        Is("removed_config", "1");
        Is("removed_data", "kept");
        Is("purged", "none");
        Is("purged_config", "no");
        Is("purged_secret", "yes");
        Is("purged_data", "kept");
        Is("purge_says", "1");
        Is("again", "kept");
        Is("all_gone", "no no nobody");
        Is("asked_no", "1 yes none");
        Is("asked_yes", "1 no none");

        void Is(string name, string expected) => Assert.True(facts.GetValueOrDefault(name) == expected, $"{name}={facts.GetValueOrDefault(name)}, not {expected}\n{said}");
    }
}
