using System.Runtime.InteropServices;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>
/// The package, built once by the script that builds it for boards. A native build takes minutes: the program packed is the framework-dependent one beside the sources,
/// or, where STROKEWATCH_NATIVE names the folder of a published native one, that.
/// </summary>
public sealed class BuiltPackage : IDisposable
{
    private readonly TempFolder folder = new();
    private string? file;

    /// <summary>Gets the folder of a native build; null where none is named.</summary>
    public static string? Native => Environment.GetEnvironmentVariable("STROKEWATCH_NATIVE") is { Length: > 0 } named ? named : null;

    /// <summary>Gets the folder of the program that is packed; the test is not run where it has not been built.</summary>
    public static string Program
    {
        get
        {
            var program = Native ?? Path.Combine(Repository.Root, "src", "StrokeWatch", "bin", "Release", "net10.0");
            Skip.IfNot(File.Exists(Path.Combine(program, "strokewatch")), $"{program} holds no built program");
            return program;
        }
    }

    /// <summary>Gets the runtime's folder for a framework-dependent program.</summary>
    public static string Runtime => Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", ".."));

    /// <summary>Gets the package; the test is not run where the machine cannot build it.</summary>
    public string Deb
    {
        get
        {
            Skip.IfNot(RuntimeInformation.OSArchitecture == Architecture.X64, "the program built here is not for amd64");
            Tool.Need("bash", "dpkg-deb", "gzip", "md5sum");
            return file ??= Build("one");
        }
    }

    /// <summary>Builds it into a folder of its own.</summary>
    public string Build(string into)
    {
        var said = Tool.Say(Path.Combine(Repository.Root, "systemd", "build-deb"), "amd64", "--binary", Program, "--out", folder.At(into));
        return said.Trim();
    }

    public void Dispose() => folder.Dispose();
}
