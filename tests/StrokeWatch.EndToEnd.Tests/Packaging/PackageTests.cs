using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>What the package holds.</summary>
public sealed class PackageTests(BuiltPackage package) : IClassFixture<BuiltPackage>
{
    private const double Mebibyte = 1024 * 1024;

    [SkippableFact]
    public void It_holds_all_that_a_board_needs_owned_by_root_and_written_by_nobody_else()
    {
        var rows = Tool.Say("dpkg-deb", "-c", package.Deb).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(row => row.Split(' ', 6, StringSplitOptions.RemoveEmptyEntries)).ToList();
        var modes = rows.ToDictionary(row => row[5], row => row[0]);
        Assert.All(rows, row => Assert.Equal("root/root", row[1]));
        Assert.All(rows.Where(row => row[0][0] != 'l'), row => Assert.True(row[0][5] == '-' && row[0][8] == '-', row[5]));
        Assert.Equal("-rwxr-xr-x", modes["./usr/lib/strokewatch/strokewatch"]);
        Assert.Contains("./usr/bin/strokewatch -> ../lib/strokewatch/strokewatch", modes.Keys);
        Assert.Equal("drwxr-x---", modes["./etc/strokewatch/"]);
        Assert.All(["strokewatch.toml", "cullet.feeder.toml"], name => Assert.Equal("-rw-r-----", modes[$"./etc/strokewatch/{name}"]));
        string[] system = ["lib/systemd/system/strokewatch.service", "lib/udev/rules.d/61-strokewatch.rules", "lib/modules-load.d/strokewatch.conf", "lib/sysusers.d/strokewatch.conf"];
        string[] read = ["share/man/man1/strokewatch.1.gz", "share/doc/strokewatch/copyright", "share/doc/strokewatch/changelog.gz", "share/doc/strokewatch/README.md"];
        Assert.All([.. system, .. read], name => Assert.Equal("-rw-r--r--", modes["./usr/" + name]));
        Assert.Contains(modes.Keys, name => name.EndsWith("libe_sqlite3.so", StringComparison.Ordinal));
        Assert.DoesNotContain(modes.Keys, name => name.EndsWith(".pdb", StringComparison.Ordinal) || name.EndsWith(".dbg", StringComparison.Ordinal) || name.EndsWith(".xml", StringComparison.Ordinal));
        Assert.InRange(new FileInfo(package.Deb).Length / Mebibyte, 1, 25);
    }

    [SkippableFact]
    public void Packing_the_same_program_again_gives_the_same_bytes()
    {
        var first = File.ReadAllBytes(package.Deb);
        Assert.Equal(first, File.ReadAllBytes(package.Build("two")));
    }

    [SkippableFact]
    public void Its_version_is_the_programs_and_its_configuration_is_kept_as_such()
    {
        var version = Tool.Say("dpkg-deb", "-f", package.Deb, "Version").Trim();
        Assert.Equal(version, typeof(Pipeline.SystemdNotifier).Assembly.GetName().Version!.ToString(3));
        Assert.Contains($"\"StrokeWatch {version}\"", File.ReadAllText(Path.Combine(Repository.Root, "systemd", "strokewatch.1")), StringComparison.Ordinal);
        Assert.Equal("amd64", Tool.Say("dpkg-deb", "-f", package.Deb, "Architecture").Trim());
        Assert.Matches(@"^libc6 \(>= 2\.\d+\), passwd$", Tool.Say("dpkg-deb", "-f", package.Deb, "Depends").Trim());
        Assert.Equal("/etc/strokewatch/cullet.feeder.toml\n/etc/strokewatch/strokewatch.toml\n", Tool.Say("dpkg-deb", "-I", package.Deb, "conffiles"));
    }

    [SkippableFact]
    public void Lintian_finds_nothing_that_is_not_explained()
    {
        Tool.Need("lintian");
        Skip.If(BuiltPackage.Native is null, "a framework-dependent program is not what is shipped; STROKEWATCH_NATIVE names no native one");
        var (status, output, error) = Tool.Run("lintian", "--allow-root", "--fail-on", "error,warning", package.Deb);
        Assert.True(status == 0, output + error);
    }

    [Fact]
    public void The_licence_of_every_library_that_goes_into_the_program_is_named()
    {
        var text = File.ReadAllText(Path.Combine(Repository.Root, "systemd", "debian", "copyright"));
        var words = text.Split([' ', ',', '\n'], StringSplitOptions.RemoveEmptyEntries).ToHashSet();
        var locked = JsonNode.Parse(File.ReadAllBytes(Path.Combine(Repository.Root, "src", "StrokeWatch", "packages.lock.json")))!["dependencies"]!["net10.0"]!.AsObject();
        var libraries = locked.Where(entry => (string?)entry.Value!["type"] != "Project").Select(entry => entry.Key).Where(name => name != "Microsoft.CodeAnalysis.BannedApiAnalyzers")
            .Where(name => !name.StartsWith("runtime.", StringComparison.Ordinal) || name == "runtime.native.System.IO.Ports").ToList();
        Assert.True(libraries.Count > 15);
        Assert.All(libraries, name => Assert.Contains(name, words));
        Assert.Contains("Bitstream Vera", text, StringComparison.Ordinal);
    }
}
