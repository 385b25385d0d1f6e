using System.Diagnostics;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The commands of the benchmarks, run by tests in small.</summary>
internal static class Benchmarks
{
    /// <summary>Runs a command of the benchmarks to its end and gives what it said; a status beside 0 and 1 fails.</summary>
    public static async Task<string> Run(ITestOutputHelper output, params string[] arguments)
    {
        var own = Path.DirectorySeparatorChar + "StrokeWatch.EndToEnd.Tests" + Path.DirectorySeparatorChar;
        var path = Path.Combine(AppContext.BaseDirectory.Replace(own, own.Replace("EndToEnd.Tests", "Benchmarks", StringComparison.Ordinal), StringComparison.Ordinal), "StrokeWatch.Benchmarks.dll");
        Assert.True(File.Exists(path), $"{path} is missing: build the whole solution first");
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet", ["exec", path, .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment.Remove("JOURNAL_STREAM");
        using var process = Process.Start(start)!;
        try
        {
            var (said, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(180));
            output.WriteLine(await said);
            Assert.True(process.ExitCode is 0 or 1, $"status {process.ExitCode}: {await said}{await error}");
            return await said;
        }
        finally
        {
            process.Kill(entireProcessTree: true);
        }
    }
}
