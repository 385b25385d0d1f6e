using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Reference;

/// <summary>The second opinion: stroke_reference.py in the folder beside the repository, which shares no code with this program (NumPy, SciPy).</summary>
internal static class Yardstick
{
    private const string Python = "/usr/bin/python3";
    private const double Gravity = 9.80665;

    private static readonly Lazy<Task<string?>> Lacks = new(Look);

    /// <summary>Says that the test is not run where the yardstick or what it needs is absent.</summary>
    public static async Task SkipWhereAbsent()
    {
        _ = Repository.Shared("reference/stroke_reference.py");
        var lacks = await Lacks.Value;
        Skip.If(lacks is not null, $"{lacks}; on Debian: apt-get install python3-numpy python3-scipy");
    }

    /// <summary>Measures a table of t, x, y, z.</summary>
    public static async Task<JsonNode> Measure(string csv, double supplyHz, int strokesPerCycle)
    {
        var (status, output, error) = await Run(
            Repository.Shared("reference/stroke_reference.py"), csv,
            "--supply-hz", supplyHz.ToString(CultureInfo.InvariantCulture), "--strokes-per-cycle", strokesPerCycle.ToString(CultureInfo.InvariantCulture));
        Assert.True(status == 0, error);
        return JsonNode.Parse(output)!;
    }

    /// <summary>Writes a capture as the table that the yardstick reads.</summary>
    public static void Convert(string capture, string csv)
    {
        using var source = CaptureFile.Open(capture, new());
        using var writer = new StreamWriter(csv) { NewLine = "\n" };
        writer.WriteLine("t,x_g,y_g,z_g");
        var block = new SampleBlock(3, 4096);
        long n = 0;
        while (source.Read(block) == SourceState.Samples)
        {
            var line = new StringBuilder();
            for (var i = 0; i < block.Count; i++, n++)
            {
                line.Append(CultureInfo.InvariantCulture, $"{n / source.Info.RateHz!.Value:R},{block[0][i] / Gravity:R},{block[1][i] / Gravity:R},{block[2][i] / Gravity:R}\n");
            }

            writer.Write(line);
        }
    }

    private static async Task<string?> Look()
    {
        if (!File.Exists(Python))
        {
            return $"{Python} is not there";
        }

        var (status, _, error) = await Run("-c", "import numpy, scipy");
        return status == 0 ? null : $"NumPy or SciPy is not there ({error.Trim().Split('\n')[^1]})";
    }

    private static async Task<(int Status, string Output, string Error)> Run(params string[] arguments)
    {
        var start = new ProcessStartInfo(Python, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(120));
        return (process.ExitCode, await output, await error);
    }
}
