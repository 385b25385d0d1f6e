using System.Diagnostics;
using StrokeWatch.Commands;
using StrokeWatch.Tests.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class ReplayReportTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    [Theory]
    [InlineData("steady-50hz", 0)]
    [InlineData("over-stroke", 1)]
    [InlineData("stopped", 3)]
    public void A_page_is_written_beside_the_usual_output_and_the_status_stays(string name, int status)
    {
        var page = Path.Combine(folder, "page.html");
        var (given, output, errors) = Run(Pages.CaptureOf(name), "--feeder", Path.Combine(Pages.SimData, $"{name}.feeder.toml"), "--report", page);
        Assert.Equal((status, ""), (given, errors));
        Assert.Contains("verdict", output, StringComparison.Ordinal);
        Assert.Single(Pages.Parse(File.ReadAllText(page)).Descendants("article"));
        Assert.Equal((byte)'<', File.ReadAllBytes(page)[0]);
        Assert.Equal(status != 3, File.ReadAllText(page).Contains("Waveform", StringComparison.Ordinal));
    }

    [Fact]
    public void A_page_never_overwrites_what_it_is_made_of()
    {
        var capture = Path.Combine(folder, "steady.wav");
        File.Copy(Pages.CaptureOf("steady-50hz"), capture);
        var before = File.ReadAllBytes(capture);
        var (status, _, errors) = Run(capture, "--feeder", Path.Combine(Pages.SimData, "steady-50hz.feeder.toml"), "--report", Path.Combine(folder, ".", "steady.wav"));
        Assert.Equal(2, status);
        Assert.Contains("is read by this very command", Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(capture));
    }

    [Theory]
    [InlineData("-", "a page goes to a file")]
    [InlineData("nowhere/page.html", "cannot be written")]
    public void A_page_that_cannot_be_written_is_one_clear_line(string target, string words)
    {
        var report = target == "-" ? target : Path.Combine(folder, target);
        var (status, _, errors) = Run(Pages.CaptureOf("steady-50hz"), "--feeder", Path.Combine(Pages.SimData, "steady-50hz.feeder.toml"), "--report", report);
        Assert.Equal(2, status);
        Assert.Contains(words, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task A_capture_from_a_pipe_is_read_once_and_the_page_says_what_it_lacks()
    {
        Skip.If(OperatingSystem.IsWindows(), "named pipes of this kind are of Unix");
        var (pipe, page) = (Path.Combine(folder, "pipe"), Path.Combine(folder, "page.html"));
        using (var make = Process.Start("mkfifo", pipe))
        {
            await make.WaitForExitAsync();
        }

        var writer = Task.Run(() => File.WriteAllBytes(pipe, File.ReadAllBytes(Pages.CaptureOf("steady-120hz"))));
        var (status, _, errors) = Run(pipe, "--feeder", Path.Combine(Pages.SimData, "steady-120hz.feeder.toml"), "--report", page);
        Assert.Equal((0, ""), (status, errors));
        Assert.Contains("came through a pipe", await File.ReadAllTextAsync(page), StringComparison.Ordinal);
        await writer.WaitAsync(TimeSpan.FromSeconds(20));
    }

    private static (int Status, string Output, string Errors) Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var raw = new MemoryStream();
        var status = CommandLine.Run(["replay", .. arguments], new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        return (status, output.ToString(), error.ToString());
    }
}
