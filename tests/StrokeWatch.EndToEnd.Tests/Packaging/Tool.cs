using System.Diagnostics;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Packaging;

/// <summary>Programs of the system that tests of the package call.</summary>
internal static class Tool
{
    /// <summary>Reports the test as not run where one of the programs is not installed.</summary>
    public static void Need(params string[] programs)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "packages are built and tried on Linux");
        foreach (var program in programs)
        {
            Skip.IfNot(Found(program), $"{program} is not installed");
        }
    }

    /// <summary>Runs a program to its end.</summary>
    public static (int Status, string Out, string Error) Run(string program, params string[] arguments) => Run(program, arguments, []);

    /// <summary>Runs a program to its end in a richer environment.</summary>
    public static (int Status, string Out, string Error) Run(string program, string[] arguments, (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        if (!process.WaitForExit(TimeSpan.FromMinutes(8)))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"{program} {string.Join(' ', arguments)} did not end");
        }

        return (process.ExitCode, output.Result, error.Result);
    }

    /// <summary>Runs a program that must end well, and gives what it said.</summary>
    public static string Say(string program, params string[] arguments)
    {
        var (status, output, error) = Run(program, arguments);
        Assert.True(status == 0, $"{program} {string.Join(' ', arguments)}: status {status}\n{output}\n{error}");
        return output;
    }

    private static bool Found(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(':').Concat(["/usr/sbin", "/sbin"]).Any(folder => File.Exists(Path.Combine(folder, program)));
}
