using System.Text.Json.Nodes;
using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Tests.Reports.Html;
using StrokeWatch.Tests.Reports.Records;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class BookCommandTests : IDisposable
{
    private readonly RecordFiles files = new();

    private string Book => MachineBook.Beside(files.FeederFile);

    public void Dispose() => files.Dispose();

    [Fact]
    public void What_is_set_noted_and_reminded_of_is_shown_the_same_under_a_decimal_comma()
    {
        Fill();
        var (status, text, errors) = files.Run("book", "show", "--feeder", files.FeederFile);
        Assert.Equal((0, ""), (status, errors));
        foreach (var words in (string[])
        [
            "running    150.0 h, 32.4 million cycles, 7 starts, 2.5 h outside the band",
            "leaf set   rear 4 × 4 mm (0.157 in) + 1 × 3 mm (0.118 in), put in 2026-11-26 by Day shift; has run 50.0 h, 10.8 million cycles",
            "leaf springs: in 450.0 h (every 500.0 h; last 2026-11-26)",
            "air-gap      2.200 mm (0.0866 in) (at 150.0 h, 32.4 million cycles)",
            "bolt-torque  45.0 N·m (33.2 lbf·ft)",
            "note         A rattle at the rear clamp",
        ])
        {
            Assert.Contains(words, text, StringComparison.Ordinal);
        }

        Assert.Equal(text, TuneFiles.WithDecimalComma(() => files.Run("book", "show", "--feeder", files.FeederFile)).Output);
        var json = files.Run("book", "show", "--feeder", files.FeederFile, "--json", "-").Output;
        Assert.Equal(json, TuneFiles.WithDecimalComma(() => files.Run("book", "show", "--feeder", files.FeederFile, "--json", "-")).Output);
        var book = JsonNode.Parse(json)!;
        Assert.Equal(150, (double)book["running"]!["running_h"]!);
        Assert.Equal(32.4e6, (double)book["running"]!["cycles"]!);
        Assert.Equal(2.5, (double)book["running"]!["outside_band_h"]!);
        Assert.Equal([100, 50], book["leaf_sets"]!.AsArray().Select(set => (double)set!["has_run_h"]!));
        Assert.Equal("4x4.0 1x3.0", (string)book["leaf_sets"]![1]!["rear"]!);
        Assert.Equal(2.2, (double)book["entries"]![2]!["gap_mm"]!);
        Assert.Equal(("later", 450.0), ((string)book["reminders"]![0]!["state"]!, (double)book["reminders"]![0]!["left_h"]!));
    }

    [Fact]
    public void A_stack_beyond_the_rear_clamp_is_refused_and_nothing_is_written()
    {
        using var tune = new TuneFiles();
        var feeder = tune.Write("feeder.toml", TuneFiles.Feeder);
        var (status, output, error) = TuneFiles.Run("book", "set", "leaf-set", "--rear", "11x4.0", "--feeder", feeder);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("11 leaves; the rear clamp takes 10 at most", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.False(File.Exists(MachineBook.Beside(feeder)));
        Assert.Equal(0, TuneFiles.Run("book", "set", "leaf-set", "--rear", "10x4.0", "--feeder", feeder).Status);
    }

    [Fact]
    public void What_was_not_counted_is_null_with_its_reason()
    {
        Assert.Equal(0, files.Run("book", "note", "First words", "--feeder", files.FeederFile).Status);
        var running = JsonNode.Parse(files.Run("book", "show", "--feeder", files.FeederFile, "--json", "-").Output)!["running"]!;
        Assert.Null(running["running_h"]);
        Assert.Equal("nothing was counted yet", (string)running["reason"]!);
        Assert.Contains("nothing counted yet", files.Run("book", "show", "--feeder", files.FeederFile).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_reminder_begins_anew_with_an_entry_of_its_kind_and_can_be_taken_away()
    {
        Fill();
        using (var book = MachineBook.Open(Book, files.Clock))
        {
            book.Running.Add(3600 * 470, 0, 0, 0, files.Clock.GetUtcNow());
        }

        Assert.Contains("leaf springs: DUE, 20.0 h over", files.Run("book", "show", "--feeder", files.FeederFile).Output, StringComparison.Ordinal);
        Assert.Equal(0, files.Run("book", "set", "leaf-set", "--rear", "5x4.0", "--feeder", files.FeederFile).Status);
        Assert.Contains("leaf springs: in 500.0 h", files.Run("book", "show", "--feeder", files.FeederFile).Output, StringComparison.Ordinal);
        Assert.Equal(0, files.Run("book", "remind", "leaf-set", "--off", "--feeder", files.FeederFile).Status);
        Assert.Contains("none set", files.Run("book", "show", "--feeder", files.FeederFile).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_record_holds_the_book_and_the_trials_of_its_last_session()
    {
        Fill();
        using (var book = MachineBook.Open(Book, files.Clock))
        {
            var session = book.Sessions.Begin("Cullet feeder", files.Clock.GetUtcNow(), "Day shift", "measure", "{}");
            book.Sessions.AddTrial(new() { Session = session.Id, Utc = files.Clock.GetUtcNow(), Rear = "5x4.0", StrokeMetres = 1.38e-3, Verdict = "low", NaturalHz = 66.9 });
            book.Sessions.AddTrial(new() { Session = session.Id, Utc = files.Clock.GetUtcNow(), Rear = "4x4.0 1x3.0", StrokeMetres = 1.46e-3, UncertaintyMetres = 8.2e-6, Verdict = "in-band", Strike = false });
        }

        var (status, output, errors) = files.Report("record.html");
        Assert.Equal((0, ""), (status, errors));
        Assert.Contains("1.460 mm (0.0575 in) ± 0.009 mm", output, StringComparison.Ordinal);
        var page = Pages.Parse(File.ReadAllText(files.At("record.html"))).Value;
        foreach (var words in (string[])
        [
            "Trials of the tuning session begun 2026-11-26 12:00 by Day shift, not finished, from the machine book.", "1.380 mm (0.0543 in)", "66.90", "Outside the band2.5 h",
            "in 450.0 h (every 500.0 h; last 2026-11-26)", "A rattle at the rear clamp", "50.0 h, 10.8 million cycles",
        ])
        {
            Assert.Contains(words, page, StringComparison.Ordinal);
        }

        // A trial with which something was wrong, and one that told nothing, are said and left out; what guided checks found is weighed and listed in words.
        using (var book = MachineBook.Open(Book, files.Clock))
        {
            var session = book.Sessions.Open()!;
            book.Sessions.AddTrial(new() { Session = session.Id, Utc = files.Clock.GetUtcNow(), Rear = "4x4.0 1x3.0", Verdict = "unmeasurable", Reason = "stopped" });
            var check = CheckTable.All[0];
            book.Checks.Add(new(0, session.Id, files.Clock.GetUtcNow(), check.Id, check.Choices[0].Id, "Day shift", null));
        }

        Assert.Equal(0, files.Report("record.html").Status);
        page = Pages.Parse(File.ReadAllText(files.At("record.html"))).Value;
        Assert.Contains("1 more is left out", page, StringComparison.Ordinal);
        Assert.Contains(CheckTable.All[0].Title + CheckTable.All[0].Choices[0].Words, page, StringComparison.Ordinal);
        Assert.Contains("What guided checks found in the last day points to", page, StringComparison.Ordinal);
        Assert.Equal(2, files.Report("record.html", "--book", files.At("no-such.sqlite")).Status);
    }

    [Fact]
    public void A_replay_counts_nothing()
    {
        Assert.Equal(0, files.Run("replay", RecordFiles.Capture, "--feeder", files.FeederFile).Status);
        Assert.False(File.Exists(Book));
    }

    [Theory]
    [InlineData("there is no machine book yet", "show")]
    [InlineData("--rear \"4x4.0 1x3.0\"", "set", "leaf-set")]
    [InlineData("is no stack", "set", "leaf-set", "--rear", "five leaves")]
    [InlineData("add --gap", "set", "air-gap")]
    [InlineData("--gap belongs to air-gap, not to coil", "set", "coil", "--gap", "2 mm")]
    [InlineData("one of at most 100 mm was expected", "set", "air-gap", "--gap", "2200 mm")]
    [InlineData("is no length above 0", "set", "air-gap", "--gap", "2.2")]
    [InlineData("'springs' is not known; write leaf-set, air-gap", "set", "springs")]
    [InlineData("there are no words in it", "note", " ")]
    [InlineData("add --every-hours 500", "remind", "coil")]
    [InlineData("--off stands beside an interval", "remind", "coil", "--off", "--every-hours", "5")]
    [InlineData("is no number above 0", "remind", "coil", "--every-hours", "0")]
    [InlineData("unknown option --help-me-not", "--help-me-not")]
    public void Wrong_use_is_one_line_and_begins_no_book(string words, params string[] arguments)
    {
        var (status, output, errors) = files.Run(["book", .. arguments, "--feeder", files.FeederFile]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains(words, Assert.Single(errors.Trim().Split('\n')), StringComparison.Ordinal);
        Assert.False(File.Exists(Book));
    }

    /// <summary>Writes a book: a leaf set that ran 100 h, the present one that has run 50 h, gap, torque, note, reminder.</summary>
    private void Fill()
    {
        Run("set", "leaf-set", "--rear", "5x4.0");
        Count(100, 21.6e6, 3);
        Run("set", "leaf-set", "--rear", "4x4.0 1x3.0", "--who", "Day shift");
        Run("remind", "leaf-set", "--every-hours", "500");
        Count(50, 10.8e6, 4);
        Run("set", "air-gap", "--gap", "2.2 mm");
        Run("set", "bolt-torque", "--torque-nm", "45");
        Run("note", "A rattle at the rear clamp");
    }

    private void Run(params string[] arguments)
    {
        var (status, output, errors) = files.Run(["book", .. arguments, "--feeder", files.FeederFile]);
        Assert.Equal((0, ""), (status, errors));
        Assert.Contains("Cullet feeder", output, StringComparison.Ordinal);
    }

    private void Count(double hours, double cycles, long starts)
    {
        using var book = MachineBook.Open(Book, files.Clock);
        book.Running.Add(3600 * hours, cycles, starts, 3600 * hours / 60, files.Clock.GetUtcNow());
    }
}
