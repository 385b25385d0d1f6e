using System.Diagnostics;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

public sealed class CaptureFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("captures").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_missing_file_a_directory_and_no_name_are_errors_of_one_line()
    {
        var missing = Path.Combine(folder, "soda-ash.csv");
        Assert.Equal($"{missing}: there is no such file; check the path", Error(missing));
        Assert.Contains("is a directory", Error(folder), StringComparison.Ordinal);
        Assert.Contains("there is no such file", Error(Path.Combine(missing, "x.csv")), StringComparison.Ordinal);
        Assert.Contains("no file is named", Error(" "), StringComparison.Ordinal);
        Assert.DoesNotContain('\n', Error("a\0b"));
    }

    [SkippableFact]
    public void A_file_that_may_not_be_read_says_so()
    {
        Skip.If(OperatingSystem.IsWindows() || Environment.UserName == "root", "root may read everything");
        var path = Path.Combine(folder, "sand.csv");
        File.WriteAllText(path, "t_s,x_g\n0,1\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.None);
        }

        Assert.Contains("permission", Error(path), StringComparison.Ordinal);
    }

    [Fact]
    public void The_content_decides_not_the_name()
    {
        var path = Path.Combine(folder, "sand.wav");
        File.WriteAllText(path, "t_s,x_g\n0,1\n0.001,2\n0.002,3\n");
        Assert.Equal("csv", Reading.OfFile(path).Info.Format);
    }

    [SkippableFact]
    public async Task A_pipe_is_read_as_a_file_is()
    {
        Skip.If(OperatingSystem.IsWindows(), "named pipes of this kind are of Unix");
        var path = Path.Combine(folder, "pipe");
        using (var make = Process.Start("mkfifo", path))
        {
            await make.WaitForExitAsync();
        }

        var writer = Task.Run(() => File.WriteAllText(path, "t_s,x_g\n" + string.Concat(Enumerable.Range(0, 5000).Select(i => FormattableString.Invariant($"{i / 4000.0:F6},1\n")))));
        var reading = Reading.OfFile(path);
        Assert.Equal(5000, reading.Counters.Samples);
        Assert.Equal(4000, reading.Info.RateHz!.Value, 0.001);
        await writer.WaitAsync(TimeSpan.FromSeconds(20));
    }

    private static string Error(string path) => Assert.Throws<CaptureException>(() => CaptureFile.Open(path).Dispose()).Message;
}
