using System.Diagnostics;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Commands;
using StrokeWatch.Tests.Commands;
using StrokeWatch.Tests.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Records;

/// <summary>A folder with a feeder whose band is that of the capture steady-60hz, its trials, and the command run on them with a clock that stands still.</summary>
internal sealed class RecordFiles : IDisposable
{
    public static readonly DateTimeOffset Noon = new(2026, 11, 26, 12, 0, 0, TimeSpan.Zero);

    public static readonly string Feeder = TuneFiles.Feeder
        .Replace("1.65 mm", "0.055 in", StringComparison.Ordinal).Replace("1.78 mm", "0.060 in", StringComparison.Ordinal).Replace("1.90 mm", "0.065 in", StringComparison.Ordinal);

    private readonly TuneFiles files = new();

    public RecordFiles()
    {
        FeederFile = files.Write("feeder.toml", Feeder);
        TrialsFile = files.Write("trials.toml", TuneFiles.Trial);
    }

    public FakeTimeProvider Clock { get; } = new(Noon);

    public string FeederFile { get; }

    public string TrialsFile { get; }

    public static string Capture => Pages.CaptureOf("steady-60hz");

    public string At(string name) => files.At(name);

    public string Write(string name, string text) => files.Write(name, text);

    public void Dispose() => files.Dispose();

    /// <summary>Runs <c>report</c> on the feeder, or any other command where the first word names one.</summary>
    public (int Status, string Output, string Error) Report(string target, params string[] more) => Run(["report", "--feeder", FeederFile, "--out", At(target), .. more]);

    public (int Status, string Output, string Error) Run(params string[] arguments)
    {
        using var raw = new MemoryStream();
        using var output = new StringWriter();
        using var error = new StringWriter();
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Time = Clock });
        return (status, output + Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }

    /// <summary>Runs a tool of poppler-utils, an outside reader of PDF, on a document; the test is not run where it is absent.</summary>
    public static string Poppler(string tool, params string[] arguments)
    {
        var start = new ProcessStartInfo(tool, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, StandardOutputEncoding = Encoding.UTF8 };
        Process? process = null;
        try
        {
            process = Process.Start(start);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Skip.If(true, $"{tool} of poppler-utils is not installed");
        }

        using (process)
        {
            var error = process!.StandardError.ReadToEndAsync();
            var text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.Equal((0, ""), (process.ExitCode, error.Result));
            return text;
        }
    }
}
