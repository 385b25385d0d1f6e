using StrokeWatch.Tests.Reports.Html;
using StrokeWatch.Tests.Reports.Records;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class ReportCommandTests : IDisposable
{
    private readonly RecordFiles files = new();

    public void Dispose() => files.Dispose();

    [Theory]
    [InlineData("record.html")]
    [InlineData("record.pdf")]
    public void The_same_clock_gives_the_same_bytes_also_under_a_decimal_comma(string name)
    {
        string[] more = ["--capture", RecordFiles.Capture, "--trials", files.TrialsFile, "--who", "Day shift"];
        Assert.Equal((0, ""), Outcome(files.Report(name, more)));
        Assert.Equal((0, ""), Outcome(files.Report("again-" + name, more)));
        Assert.Equal((0, ""), Outcome(TuneFiles.WithDecimalComma(() => files.Report("comma-" + name, more))));
        var first = File.ReadAllBytes(files.At(name));
        Assert.Equal(first, File.ReadAllBytes(files.At("again-" + name)));
        Assert.Equal(first, File.ReadAllBytes(files.At("comma-" + name)));
        files.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal((0, ""), Outcome(files.Report("later-" + name, more)));
        Assert.NotEqual(first, File.ReadAllBytes(files.At("later-" + name)));
    }

    [Theory]
    [InlineData("steady-50hz", 0)]
    [InlineData("over-stroke", 1)]
    [InlineData("low", 1)]
    [InlineData("rocking-tray", 0)]
    [InlineData("stopped", 3)]
    public void The_status_is_that_of_the_final_reading_and_the_record_is_written_all_the_same(string name, int status)
    {
        foreach (var target in (string[])["record.html", "record.pdf"])
        {
            var path = files.At(target);
            var (given, output, errors) = files.Run("report", "--feeder", Path.Combine(Pages.SimData, $"{name}.feeder.toml"), "--capture", Pages.CaptureOf(name), "--out", path);
            Assert.Equal((status, ""), (given, errors));
            Assert.Contains(status == 3 ? "none: " : " mm (", output, StringComparison.Ordinal);
            Assert.True(new FileInfo(path).Length > 10_000);
        }
    }

    [Fact]
    public void Alarms_and_findings_of_the_final_reading_stand_in_the_record_with_the_course_over_the_captures()
    {
        var feeder = Path.Combine(Pages.SimData, "strike-plain.feeder.toml");
        Assert.Equal(1, files.Run("report", "--feeder", feeder, "--capture", Pages.CaptureOf("strike-plain"), "--capture", Pages.CaptureOf("strike-plain"), "--out", files.At("record.html")).Status);
        var page = Pages.Parse(File.ReadAllText(files.At("record.html"))).Value;
        foreach (var words in (string[])["strike, 1.0 s to the end:", "armature-strike, confidence", "Stop the feeder. Do not run it while the armature strikes.", "Over the captures", "too-little-evidence"])
        {
            Assert.Contains(words, page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_record_without_any_reading_is_no_record_of_a_machine_that_is_well()
    {
        var (status, output, errors) = files.Report("record.html");
        Assert.Equal((3, ""), (status, errors));
        Assert.Contains("none: nothing that holds a stroke was given", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1.45 mm", 0)]
    [InlineData("1.30 mm", 1)]
    [InlineData("1.70 mm", 1)]
    public void Without_a_capture_the_last_trial_is_the_reading(string stroke, int status)
    {
        var trials = files.Write("others.toml", TuneFiles.Trial.Replace("1.50 mm", stroke, StringComparison.Ordinal));
        Assert.Equal((status, ""), Outcome(files.Report("record.html", "--trials", trials)));
        Assert.Contains("Its uncertainty is not known.", File.ReadAllText(files.At("record.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_record_says_which_voltage_nobody_read_and_which_leaves_the_book_knows_to_be_in()
    {
        using var tune = new TuneFiles();
        var feeder = tune.Write("feeder.toml", TuneFiles.Feeder);
        string Page(string trials)
        {
            TuneFiles.Run("report", "--feeder", feeder, "--trials", tune.Write("trials.toml", trials), "--out", tune.At("record.html"));
            return File.ReadAllText(tune.At("record.html"));
        }

        Assert.Contains(">taken as full<", Page(TuneFiles.Trial), StringComparison.Ordinal);
        Assert.DoesNotContain("by the machine book", Page(TuneFiles.Trial), StringComparison.Ordinal);
        Assert.DoesNotContain(">taken as full<", Page(TuneFiles.Trial + "\nvoltage_ratio = 1"), StringComparison.Ordinal);
        Assert.Contains(">100.0<", Page(TuneFiles.Trial + "\nvoltage_ratio = 1"), StringComparison.Ordinal);
        Assert.Equal(0, TuneFiles.Run("book", "set", "leaf-set", "--rear", "5x4.0 1x3.0", "--feeder", feeder).Status);
        Assert.Contains("; by the machine book 5 × 4 mm (0.157 in) + 1 × 3 mm (0.118 in) since ", Page(TuneFiles.Trial), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("record.doc", "write .html or .pdf")]
    [InlineData("feeder.toml", "write .html or .pdf")]
    [InlineData("nowhere/record.pdf", "cannot be written")]
    [InlineData("record.pdf", "is no date", "--store", "no-such.db", "--from", "yesterday")]
    [InlineData("record.pdf", "is not before", "--store", "no-such.db", "--from", "2026-05-01", "--to", "2026-04-01")]
    [InlineData("record.pdf", "add --store", "--from", "2026-05-01")]
    [InlineData("record.pdf", "a4 or letter", "--paper", "a3")]
    [InlineData("record.pdf", "is not there", "--store", "no-such.db")]
    [InlineData("record.pdf", "is a TOML file", "--capture", "feeder.toml")]
    public void Wrong_use_is_one_line_and_writes_nothing(string target, string words, params string[] more)
    {
        var (status, _, errors) = files.Report(target, more);
        Assert.Equal(2, status);
        Assert.Contains(words, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.Equal(target == "feeder.toml", File.Exists(files.At(target)));
        Assert.Equal(RecordFiles.Feeder, File.ReadAllText(files.FeederFile));
    }

    [Fact]
    public void A_store_that_is_none_is_one_line()
    {
        var (status, _, errors) = files.Report("record.pdf", "--store", files.FeederFile);
        Assert.Equal(2, status);
        Assert.Contains("cannot be read", Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
    }

    private static (int Status, string Error) Outcome((int Status, string Output, string Error) run) => (run.Status, run.Error);
}
