using System.Runtime.Versioning;
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
        Assert.Matches(@"^libc6 \(>= 2\.\d+\), passwd, debconf \(>= 0\.5\) \| debconf-2\.0$", Tool.Say("dpkg-deb", "-f", package.Deb, "Depends").Trim());
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

    /// <summary>The script's way to the compiler, with a stand-in for the SDK that takes down what it was asked and gives a program; the real one takes minutes (STROKEWATCH_NATIVE_ARM64=build).</summary>
    [SupportedOSPlatform("linux")]
    [SkippableTheory]
    [InlineData("amd64", "linux-x64", "")]
    [InlineData("arm64", "linux-arm64", " -p:LinkerFlavor=lld -p:ObjCopyName=aarch64-linux-gnu-objcopy")]
    public void The_script_publishes_a_native_program_for_the_processor_asked_for_with_nothing_left_behind(string architecture, string runtime, string more)
    {
        Tool.Need("bash", "dpkg-deb", "gzip", "md5sum");
        using var folder = new TempFolder();
        Directory.CreateDirectory(folder.At("bin"));
        var sdk = folder.Write("bin/dotnet", "#!/bin/sh\necho \"$*\" >\"$ASKED\"\nwhile [ \"$1\" != -o ]; do shift; done\nmkdir -p \"$2\"\nprintf 'GLIBC_2.34' >\"$2/strokewatch\"\nchmod 755 \"$2/strokewatch\"\n: >\"$2/strokewatch.dbg\"\n");
        File.SetUnixFileMode(sdk, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        Directory.CreateDirectory(folder.At("tmp"));
        var (status, output, error) = Tool.Run(
            Path.Combine(Repository.Root, "systemd", "build-deb"),
            [architecture, "--out", folder.At("out")],
            [("PATH", $"{folder.At("bin")}:{Environment.GetEnvironmentVariable("PATH")}"), ("ASKED", folder.At("asked")), ("TMPDIR", folder.At("tmp"))]);
        Assert.True(status == 0, output + error);
        var asked = File.ReadAllText(folder.At("asked"));
        Assert.Matches($"^publish .*/src/StrokeWatch -c Release -r {runtime} -p:PublishAot=true -p:StripSymbols=true -p:DebugType=none{more} --artifacts-path ", asked);

        // Analyzers refuse a build without documentation, and with it every later package.
        Assert.DoesNotContain("GenerateDocumentationFile", asked, StringComparison.Ordinal);
        Assert.Equal(architecture, Tool.Say("dpkg-deb", "-f", output.Trim(), "Architecture").Trim());
        Assert.DoesNotContain(".dbg", Tool.Say("dpkg-deb", "-c", output.Trim()), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.At("tmp")));
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
