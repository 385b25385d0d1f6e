using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Commands;
using StrokeWatch.Configuration;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Configuration;
using StrokeWatch.Tests.Measurement;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class BaselineCommandTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public BaselineCommandTests() => File.WriteAllText(folder.At("cullet.toml"), GlassWorksSensor.FeederFile(""));

    private string Kept => folder.At("cullet.baseline.json");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Healthy_captures_give_mean_and_spread_of_the_stroke()
    {
        double[] strokes = [1.70, 1.71, 1.69, 1.72];
        var (status, output, error) = Learn([.. strokes.Select((stroke, day) => Capture(day, stroke))]);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("version 1: learned, made 2026-03-14", output, StringComparison.Ordinal);
        Assert.Contains(" in, spread ", output, StringComparison.Ordinal);
        Assert.Contains("4 captures tell each spread within 41 %", output, StringComparison.Ordinal);
        var stroke = BaselineFile.Read(Kept, new(Kept))!.Current!.Find("stroke_mm")!;
        Assert.Equal((4, new DateTimeOffset(2026, 3, 1, 6, 0, 0, TimeSpan.Zero)), (stroke.Count!.Value, stroke.From!.Value));
        Assert.Equal(1.705, stroke.Mean, 1e-3);
        Assert.Equal(0.01291, stroke.Spread, 1e-3);
        Assert.Equal(25, BaselineFile.Read(Kept, new(Kept))!.Current!.Find("line_angle_deg")!.Mean, 0.1);
    }

    [Fact]
    public void A_capture_with_an_alarm_is_left_out_and_said()
    {
        var (status, _, error) = Learn(Capture(0, 1.70), Capture(1, 1.71), Capture(2, 1.99), Capture(3, 1.69));
        Assert.Equal(1, status);
        Assert.Contains("left out: an alarm stood in it (over-stroke", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.Equal(3, BaselineFile.Read(Kept, new(Kept))!.Current!.Find("stroke_mm")!.Count);
    }

    [Fact]
    public void Too_few_captures_write_nothing()
    {
        Assert.Equal(2, Learn(Capture(0, 1.70), Capture(1, 1.71)).Status);
        var (status, _, error) = Learn(Capture(0, 1.70), Capture(1, 1.99), Capture(2, 1.71));
        Assert.Equal(1, status);
        Assert.Contains("2 of 3 captures can be used", error, StringComparison.Ordinal);
        Assert.False(File.Exists(Kept));
    }

    [Fact]
    public void The_same_capture_twice_counts_once()
    {
        var (first, second) = (Capture(0, 1.70), Capture(1, 1.71));
        var (status, _, error) = Learn(first, second, second);
        Assert.Equal(2, status);
        Assert.Contains("the same date", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_told_baseline_is_a_new_version_and_the_old_one_stays()
    {
        Assert.Equal(0, Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", "natural_frequency_hz=66.2,0.1", "--feature", "stroke_mm=1.72,0.01", "--note", "commissioning").Status);
        Assert.Equal(0, Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", "natural_frequency_hz=65.9,0.1").Status);
        var (status, output, _) = Run("baseline", "show", Kept);
        Assert.Equal(0, status);
        Assert.StartsWith("version 1: told, made 2026-03-14 09:30, 2 features (commissioning)", output, StringComparison.Ordinal);
        Assert.Contains("in force, version 2: told", output, StringComparison.Ordinal);
        Assert.Equal(66.2, BaselineFile.Read(Kept, new(Kept))!.Versions[0].Find("natural_frequency_hz")!.Mean);
    }

    [Fact]
    public void An_earlier_version_is_put_in_force_again_as_a_new_one()
    {
        _ = Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", "natural_frequency_hz=66.2,0.1");
        _ = Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", "natural_frequency_hz=60.1,0.1");
        var (status, output, _) = Run("baseline", "take", "1", "--feeder", folder.At("cullet.toml"), "--note", "the second was of a loose clamp");
        Assert.Equal(0, status);
        Assert.Contains("version 3: told", output, StringComparison.Ordinal);
        var history = BaselineFile.Read(Kept, new(Kept))!;
        Assert.Equal((3, 66.2, "version 1 again: the second was of a loose clamp"), (history.Versions.Count, history.Current!.Find("natural_frequency_hz")!.Mean, history.Current.Note));
        Assert.Equal(60.1, history.Versions[1].Find("natural_frequency_hz")!.Mean);
        var (wrong, _, error) = Run("baseline", "take", "9", "--feeder", folder.At("cullet.toml"));
        Assert.Equal(2, wrong);
        Assert.Contains("holds no version 9; versions 1 to 3 are in it", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("natural_frequncy_hz=66,0.1", "did you mean natural_frequency_hz?")]
    [InlineData("stroke_mm=1.7", "mean and spread were expected")]
    [InlineData("stroke_mm=1.7,-1", "at or above 0")]
    [InlineData("stroke_mm=NaN,0", "mean and spread were expected")]
    [InlineData("stroke_mm", "mean and spread were expected")]
    public void What_cannot_be_told_is_one_clear_line(string feature, string words)
    {
        var (status, _, error) = Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", feature);
        Assert.Equal(2, status);
        Assert.Contains(words, Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.False(File.Exists(Kept));
    }

    [Fact]
    public void A_file_that_is_not_there_or_holds_something_else_is_not_shown()
    {
        Assert.Contains("is not there", Run("baseline", "show", folder.At("none.baseline.json")).Error, StringComparison.Ordinal);
        File.WriteAllText(Kept, "{ \"form\": 1");
        Assert.Equal(2, Run("baseline", "show", Kept).Status);
        Assert.Equal(2, Run("baseline", "tell", "--feeder", folder.At("cullet.toml"), "--feature", "stroke_mm=1.7,0.01").Status);
        Assert.Equal("{ \"form\": 1", File.ReadAllText(Kept));
    }

    /// <summary>Writes two seconds of a 50 Hz feeder along 25°, dated by the file's own time.</summary>
    private string Capture(int day, double millimetres)
    {
        var path = folder.At($"run-{day}.csv");
        var truth = Signal.Feeder(millimetres / 1e3, 50, 25, 0.02 * Gravity.Standard, seed: 40 + day);
        File.WriteAllLines(path, Enumerable.Range(0, 6401).Select(i => i == 0
            ? "t_s,x_g,y_g,z_g"
            : string.Join(',', truth((i - 1) / 3200.0).Select(value => value / Gravity.Standard).Prepend((i - 1) / 3200.0).Select(value => value.ToString("R", CultureInfo.InvariantCulture)))));
        File.SetLastWriteTimeUtc(path, new(2026, 3, 1 + day, 6, 0, 0, DateTimeKind.Utc));
        return path;
    }

    private (int Status, string Output, string Error) Learn(params string[] captures) => Run(["baseline", "learn", "--feeder", folder.At("cullet.toml"), .. captures]);

    private static (int Status, string Output, string Error) Run(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var status = CommandLine.Run(arguments, new()
        {
            Output = output,
            Error = error,
            RawOutput = Stream.Null,
            Time = new FakeTimeProvider(new(2026, 3, 14, 9, 30, 0, TimeSpan.Zero)),
        });
        return (status, output.ToString(), error.ToString());
    }
}
