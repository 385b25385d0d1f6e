using System.Globalization;
using System.Text;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>Input that somebody will give some day: one clear line, the right status, nothing of the program's inside.</summary>
public sealed class BadInputTests : IDisposable
{
    private const int Rate = 3200;
    private static readonly string Wav = Repository.Capture("steady-50hz");
    private static readonly string Feeder = Repository.Feeder("steady-50hz");
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("missing", "there is no such file; check the path")]
    [InlineData("empty.csv", "is empty; record it again")]
    [InlineData("empty.wav", "is empty; record it again")]
    [InlineData("folder", "is a directory, not a capture; name a file in it")]
    [InlineData("binary.csv", "is neither text nor WAV; give a CSV, TSV or WAV capture")]
    [InlineData("binary.wav", "is neither text nor WAV; give a CSV, TSV or WAV capture")]
    [InlineData("zeros.wav", "is neither text nor WAV; give a CSV, TSV or WAV capture")]
    [InlineData("header.wav", "is a WAV file cut off within its header; record it again")]
    [InlineData("header.csv", "has a header but no row of numbers; record it again, or check --skip-rows")]
    [InlineData("words.csv", "has no columns of numbers; give a CSV, TSV or WAV capture, or check --skip-rows")]
    [InlineData("no-unit.csv", "does not say the unit of its acceleration; say --unit g, m_s2, mm_s2, mg, kilo_g or counts")]
    [InlineData("bare-column.csv", "does not say the unit of its acceleration; say --unit g, m_s2, mm_s2, mg, kilo_g or counts")]
    [InlineData("all-nan.csv", "holds no usable sample (rows rejected: 6400 nan-or-infinite); record it again")]
    [InlineData("other.toml", "is a TOML file, not a capture; name a CSV, TSV or WAV file, and the feeder file after --feeder")]
    public async Task A_capture_that_cannot_be_read_is_said_in_one_line(string name, string says)
    {
        Make(name);
        foreach (var more in (string[][])[[], ["--json", "-"]])
        {
            var outcome = await Running.Run(folder.Path, ["replay", name, "--feeder", Feeder, .. more]);
            outcome.ShouldRefuse(2, 1);
            Assert.Equal($"{name}: {says}", outcome.Error.TrimEnd());
        }
    }

    [Theory]
    [InlineData("cut.wav", 0, "truncated", 1)]
    [InlineData("sentences.csv", 0, "error-text", 2)]
    [InlineData("nans.csv", 0, "nan-or-infinite", 2)]
    [InlineData("many-nans.csv", 3, "nan-or-infinite", 32)]
    public async Task A_capture_with_damage_is_measured_around_it_and_the_damage_is_counted(string name, int status, string reason, int rows)
    {
        Make(name);
        var outcome = await Running.Run(folder.Path, "replay", name, "--feeder", Feeder, "--json", "-");
        Assert.Equal((status, ""), (outcome.Status, outcome.Error));
        var document = outcome.Document();
        Contract.Check(document);
        Assert.Equal(rows, (int)document["capture"]!["rejected_rows"]![reason]!);
        if (status == 3)
        {
            Assert.Null(document["stroke"]!["pp_mm"]);
        }
        else
        {
            Assert.InRange((double)document["stroke"]!["pp_mm"]!, 1.68, 1.73);
        }
    }

    [Theory]
    [InlineData("short.csv", "the capture is shorter than ten cycles of the drive")]
    [InlineData("all-zero.csv", "")]
    public async Task A_capture_that_tells_no_stroke_gives_a_reason_and_status_three(string name, string says)
    {
        Make(name);
        var outcome = await Running.Run(folder.Path, "replay", name, "--feeder", Feeder, "--json", "-");
        Assert.Equal((3, ""), (outcome.Status, outcome.Error));
        var document = outcome.Document();
        Contract.Check(document);
        Assert.Contains(says, (string)document["stroke"]!["reason"]!, StringComparison.Ordinal);
        Assert.NotEqual("in-band", (string)document["stroke"]!["verdict"]!);
    }

    [Fact]
    public async Task One_axis_alone_is_measured_and_no_line_of_action_claimed()
    {
        Make("one-column.csv");
        var document = (await Running.Run(folder.Path, "replay", "one-column.csv", "--feeder", Feeder, "--json", "-")).Document();
        Contract.Check(document);
        Assert.Equal("supply", (string)document["capture"]!["rate_from"]!);
        Assert.Null(document["stroke"]!["line_angle_deg"]);
        Assert.NotNull(document["stroke"]!["pp_mm"]);
    }

    [Theory]
    [InlineData("x.toml", "x.toml: there is no such file; check the path")]
    [InlineData("folder", "folder: is a directory; a TOML file was expected")]
    [InlineData("binary.csv", "binary.csv: is not text; a TOML file in UTF-8 was expected")]
    public async Task A_feeder_file_that_cannot_be_read_is_said_in_one_line(string name, string says)
    {
        Make(name);
        var outcome = await Running.Run(folder.Path, "replay", Wav, "--feeder", name);
        outcome.ShouldRefuse(2, 1);
        Assert.Equal(says, outcome.Error.TrimEnd());
    }

    [Fact]
    public async Task All_five_errors_of_a_feeder_file_come_at_once_with_file_and_line()
    {
        folder.Write("five.toml", """
            nmae = "Cullet feeder"
            [drive]
            supply_hz = 5
            strokes_per_cycle = 3
            frequency = "mains"
            [stroke]
            low = "1.65"
            high = "1.78 mm"
            limit = "1.90 mm"
            """);
        foreach (var arguments in (string[][])[["replay", Wav, "--feeder", "five.toml"], ["check", "--feeder", "five.toml"]])
        {
            var outcome = await Running.Run(folder.Path, arguments);
            outcome.ShouldRefuse(2, 5);
            Assert.Equal(["five.toml:1:", "five.toml:3:", "five.toml:4:", "five.toml:5:", "five.toml:7:"], outcome.ErrorLines.Select(line => line.Split(' ')[0]));
            Assert.Contains("did you mean `name`", outcome.ErrorLines[0], StringComparison.Ordinal);
            Assert.Contains("mm, in or mil", outcome.ErrorLines[4], StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_unknown_model_is_answered_with_the_known_ones()
    {
        folder.Write("model.toml", "model = \"medum\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n");
        var outcome = await Running.Run(folder.Path, "replay", Wav, "--feeder", "model.toml");
        outcome.ShouldRefuse(2, 1);
        Assert.StartsWith("model.toml:1: unknown model `medum`; did you mean `medium", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_models_file_that_is_missing_is_named()
    {
        folder.Write("model.toml", "model = \"medium\"\nmodels = \"ours.toml\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n");
        var outcome = await Running.Run(folder.Path, "replay", Wav, "--feeder", "model.toml");
        outcome.ShouldRefuse(2, 1);
        Assert.Contains("ours.toml: there is no such file", outcome.Error, StringComparison.Ordinal);
    }

    private void Make(string name)
    {
        var path = folder.At(name);
        var random = new Random(5);
        switch (name)
        {
            case "folder":
                Directory.CreateDirectory(path);
                break;
            case "empty.csv" or "empty.wav":
                File.WriteAllBytes(path, []);
                break;
            case "binary.csv" or "binary.wav":
                var bytes = new byte[5000];
                random.NextBytes(bytes);
                File.WriteAllBytes(path, bytes);
                break;
            case "zeros.wav":
                File.WriteAllBytes(path, new byte[5000]);
                break;
            case "header.wav":
                File.WriteAllBytes(path, File.ReadAllBytes(Wav)[..20]);
                break;
            case "cut.wav":
                File.WriteAllBytes(path, File.ReadAllBytes(Wav)[..50_001]);
                break;
            case "other.toml":
                File.Copy(Feeder, path);
                break;
            case "header.csv":
                File.WriteAllText(path, "t_s,x_g,y_g,z_g\n");
                break;
            case "words.csv":
                File.WriteAllText(path, string.Concat(Enumerable.Repeat("the sensor was here\n", 300)));
                break;
            default:
                if (path.EndsWith(".csv", StringComparison.Ordinal))
                {
                    File.WriteAllText(path, Csv(name));
                }

                break;
        }
    }

    /// <summary>Two seconds of a clean 1.70 mm stroke at 50 Hz and 20 degrees, with the trouble that the name says.</summary>
    private static string Csv(string name)
    {
        var peak = 0.5 * 1.70e-3 * Math.Pow(2 * Math.PI * 50, 2) / 9.80665;
        var text = new StringBuilder(name switch
        {
            "no-unit.csv" => "t_s,x,y,z\n",
            "one-column.csv" => "z_g\n",
            "bare-column.csv" => "",
            _ => "t_s,x_g,y_g,z_g\n",
        });
        for (var n = 0; n < (name == "short.csv" ? 100 : 2 * Rate); n++)
        {
            var along = peak * Math.Sin(2 * Math.PI * 50 * n / Rate);
            var (x, z) = (along * Math.Cos(20 * Math.PI / 180), 1 + (along * Math.Sin(20 * Math.PI / 180)));
            FormattableString row = (name, n) switch
            {
                ("one-column.csv" or "bare-column.csv", _) => $"{z:0.000000}",
                ("all-zero.csv", _) => $"{n / (double)Rate:0.000000},0,0,0",
                ("all-nan.csv", _) => $"{n / (double)Rate:0.000000},nan,nan,nan",
                ("sentences.csv", 2000 or 4000) => $"sensor not ready, trying again",
                ("nans.csv", 2000 or 4000) => $"{n / (double)Rate:0.000000},{x:0.000000},NaN,{z:0.000000}",
                ("many-nans.csv", _) when n % 200 == 100 => $"{n / (double)Rate:0.000000},{x:0.000000},NaN,{z:0.000000}",
                _ => $"{n / (double)Rate:0.000000},{x:0.000000},0.01,{z:0.000000}",
            };
            text.AppendLine(row.ToString(CultureInfo.InvariantCulture));
        }

        return text.ToString();
    }
}
