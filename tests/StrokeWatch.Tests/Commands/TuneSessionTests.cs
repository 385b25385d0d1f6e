using StrokeWatch.Commands;
using StrokeWatch.Outputs.Book;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>The session as a command, its answers as lines.</summary>
public sealed class TuneSessionTests : IDisposable
{
    private const string ToMeasure = "1\n1\n1\n1\n1\n1\n\n";
    private readonly TuneFiles files = new();
    private readonly string feeder;

    public TuneSessionTests() => feeder = files.Write("feeder.toml", TuneFiles.Feeder);

    public void Dispose() => files.Dispose();

    [Fact]
    public void The_end_of_the_answers_leaves_the_session_where_it_stands_and_it_is_resumed_there()
    {
        Simulate("first.wav", "5x4.0");
        var (status, output, error) = Run(ToMeasure + "1\n", "tune", "session", "--feeder", feeder, "--who", "Kim", "--capture", files.At("first.wav"));
        Assert.Equal((1, ""), (status, error));
        Assert.Contains("verdict    LOW", output, StringComparison.Ordinal);
        Assert.Contains($"--feeder {feeder} --resume", output, StringComparison.Ordinal);
        using (var book = MachineBook.OpenReader(MachineBook.Beside(feeder)))
        {
            var session = book.Sessions.Open()!;
            Assert.Equal(("reading", "Kim", "Cullet feeder"), (session.Step, session.Who, session.Feeder));
            var trial = Assert.Single(book.Sessions.Trials(session.Id));
            Assert.Equal(("5x4.0", "4x4.0", "low", false, "first.wav"), (trial.Rear, trial.Front, trial.Verdict, trial.Strike, trial.Capture));
            Assert.Equal(TunedMachine.FirstMillimetres, trial.StrokeMetres!.Value * 1e3, 0.01);
            Assert.Equal(66.7, trial.NaturalHz!.Value, 0.2);
            Assert.Equal(["cautions", "empty", "voltage", "warm", "free", "clean", "rear", "measure"], book.Sessions.Answers(session.Id).Select(answer => answer.Step));
        }

        (status, output, error) = Run("1\nq\n", "tune", "--feeder", feeder, "--resume");
        Assert.Equal((1, ""), (status, error));
        Assert.StartsWith("\n== Reading", output, StringComparison.Ordinal);
        Assert.Contains("== What to do next", output, StringComparison.Ordinal);
        Assert.DoesNotContain("== Cautions", output, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unfinished_session_is_asked_about_and_may_be_given_up()
    {
        Run("1\n", "tune", "session", "--feeder", feeder, "--who", "Kim");
        var (_, output, _) = Run("x\n?\n\n", "tune", "session", "--feeder", feeder);
        Assert.Contains("by Kim is not at its end; it stands at \"empty\"", output, StringComparison.Ordinal);
        Assert.Contains("\"x\" is no answer here", output, StringComparison.Ordinal);
        Assert.Contains("== Tray empty", output, StringComparison.Ordinal);
        (_, output, _) = Run("2\nAlex\n", "tune", "session", "--feeder", feeder);
        Assert.Contains("== Who", output, StringComparison.Ordinal);
        (_, output, _) = Run("", "tune", "session", "--feeder", feeder, "--new", "--who", "Robin");
        Assert.Contains("== Cautions", output, StringComparison.Ordinal);
        using var book = MachineBook.OpenReader(MachineBook.Beside(feeder));
        Assert.Equal([BookSessionState.Abandoned, BookSessionState.Abandoned, BookSessionState.Open], book.Sessions.All().Select(session => session.State));
    }

    [Fact]
    public void Nothing_but_measurements_without_a_stroke_is_exit_status_3()
    {
        Assert.Equal(0, TuneFiles.Run("simulate", files.Write("still.toml", "[run]\nduration_s = 3\n[supply]\nvoltage_percent = 0\n[feeder.drive]\nsupply_hz = 60\nstrokes_per_cycle = 1"), "--out", files.At("still.wav")).Status);
        var (status, output, error) = Run(ToMeasure + "1\n1\nq\n", "tune", "session", "--feeder", feeder, "--who", "Kim", "--capture", files.At("still.wav"));
        Assert.Equal((3, ""), (status, error));
        Assert.Contains("stroke     not measured: ", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_capture_that_cannot_be_read_is_one_line_and_asked_for_again()
    {
        files.Write("rubbish.csv", "this is no capture\n");
        var (status, output, _) = Run(ToMeasure + "1\n" + files.At("none.wav") + "\n" + files.At("rubbish.csv") + "\nq\n", "tune", "session", "--feeder", feeder, "--who", "Kim");
        Assert.Equal(1, status);
        Assert.Contains("none.wav", output, StringComparison.Ordinal);
        Assert.Contains("rubbish.csv", output, StringComparison.Ordinal);
        Assert.Equal(3, output.Split("== Capture").Length - 1);
    }

    [Fact]
    public void Over_stroke_in_a_capture_says_stop_before_the_reading()
    {
        Simulate("over.wav", "5x4.0", 1.95);
        var (_, output, _) = Run(ToMeasure + "1\nb\n1\n", "tune", "session", "--feeder", feeder, "--who", "Kim", "--capture", files.At("over.wav"));
        var after = output[output.IndexOf("== Measure", StringComparison.Ordinal)..];
        Assert.True(after.IndexOf("STOP THE FEEDER NOW", StringComparison.Ordinal) < after.IndexOf("1.95", StringComparison.Ordinal), after);
        Assert.Contains("There is nothing to go back to from here.", after, StringComparison.Ordinal);
        Assert.Contains("OVER-STROKE, 0.0", after, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("there is no unfinished session to resume", "--resume")]
    [InlineData("--resume and --new exclude each other", "--resume", "--new")]
    [InlineData("there is no such capture", "--capture", "none.wav")]
    [InlineData("none.toml", "--config", "none.toml")]
    [InlineData("the folder is missing: create it", "--book", "nowhere/x.sqlite")]
    public void Wrong_use_is_one_line_and_exit_status_2(string expected, params string[] options)
    {
        var (status, output, error) = Run("", ["tune", "session", "--feeder", feeder, .. options]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains(expected, Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_feeder_s_book_is_told_and_neither_written_nor_reported()
    {
        Run("1\n", "tune", "session", "--feeder", feeder, "--who", "Kim");
        var book = MachineBook.Beside(feeder);
        var other = files.Write("sand.toml", TuneFiles.Feeder.Replace("Cullet feeder", "Sand feeder", StringComparison.Ordinal));
        foreach (var command in (string[][])
        [
            ["tune", "session", "--new"], ["tune", "checks"], ["book", "show"], ["book", "note", "words"], ["book", "remind", "coil", "--every-hours", "9"],
            ["report", "--out", files.At("record.html")], ["replay", files.At("none.wav")],
        ])
        {
            var (status, output, error) = Run("", [.. command, "--feeder", other, "--book", book]);
            Assert.Equal((2, ""), (status, output));
            Assert.Contains("is the book of the feeder \"Cullet feeder\", not of \"Sand feeder\"", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        }

        using var read = MachineBook.OpenReader(book);
        Assert.Single(read.Sessions.All());
        Assert.Empty(read.Entries.All());
        Assert.False(File.Exists(files.At("record.html")));
    }

    [Fact]
    public void What_is_said_at_leaving_goes_on_in_the_same_book()
    {
        var elsewhere = files.At("east works.sqlite");
        var (_, output, _) = Run("", "tune", "session", "--feeder", feeder, "--who", "Kim", "--book", elsewhere);
        Assert.Contains($"--feeder {feeder} --book \"{elsewhere}\" --resume", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_feeder_file_the_commands_are_named_and_a_damaged_book_is_told()
    {
        Assert.Contains("no command is given; the commands are advise, ", Run("", "tune").Error, StringComparison.Ordinal);
        Assert.Contains("--feeder", Run("", "tune", "session").Error, StringComparison.Ordinal);
        File.WriteAllText(MachineBook.Beside(feeder), new string('x', 5000));
        var (status, _, error) = Run("", "tune", "session", "--feeder", feeder);
        Assert.Equal(2, status);
        Assert.Contains("is left as it is", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void The_words_are_the_same_under_a_decimal_comma()
    {
        Simulate("first.wav", "5x4.0");
        string Words() => Run(ToMeasure + "1\n1\n", "tune", "session", "--feeder", feeder, "--who", "Kim", "--new", "--capture", files.At("first.wav")).Output;
        var plain = Words();
        Assert.Contains("1.5", plain, StringComparison.Ordinal);
        Assert.Equal(plain, TuneFiles.WithDecimalComma(Words));
    }

    [Fact]
    public void Guided_checks_alone_are_kept_and_count_on_after_an_interruption()
    {
        var (status, output, error) = Run("\n1\n\n2\n", "tune", "checks", "--feeder", feeder, "--who", "Kim");
        Assert.Equal((1, ""), (status, error));
        Assert.Contains("You found the tray touching or rubbing on something.", output, StringComparison.Ordinal);
        (status, output, _) = Run("2\n1\n0\n", "tune", "checks", "--feeder", feeder);
        Assert.Equal(0, status);
        Assert.Contains("Material on, under and behind the tray: nothing", output, StringComparison.Ordinal);
        Assert.EndsWith("So far nothing points to a fault.", output.TrimEnd(), StringComparison.Ordinal);
        using var book = MachineBook.OpenReader(MachineBook.Beside(feeder));
        Assert.Equal([("debris", "none", "Kim"), ("rubbing", "touches", "Kim"), ("rubbing", "free", null)], book.Checks.Since(default).Select(answer => (answer.Check, answer.Answer, answer.Who)));
        Assert.Empty(book.Sessions.All());
    }

    [Fact]
    public void A_replay_reads_what_guided_checks_found_from_the_book()
    {
        string[] captures = [.. Enumerable.Range(1, 4).Select(day => files.At($"2026-03-0{day}T120000Z.wav"))];
        Simulate("2026-03-01T120000Z.wav", "5x4.0", 1.70);
        foreach (var copy in captures.Skip(1))
        {
            File.Copy(captures[0], copy);
        }

        using (var book = MachineBook.Open(files.At("b.sqlite"), TimeProvider.System))
        {
            book.Checks.Add(new(0, null, new DateTimeOffset(2026, 3, 4, 15, 0, 0, TimeSpan.Zero), "bolts", "loose", "Kim", null));
            book.Checks.Add(new(0, null, new DateTimeOffset(2026, 3, 2, 15, 0, 0, TimeSpan.Zero), "cracks", "crack", "Kim", null));
        }

        var (status, output, _) = Run("", ["replay", .. captures, "--feeder", feeder]);
        Assert.DoesNotContain("You found", output, StringComparison.Ordinal);
        var before = status;
        (status, output, _) = Run("", ["replay", .. captures, "--feeder", feeder, "--book", files.At("b.sqlite")]);
        Assert.Contains("(clamp-loose, confidence ", output, StringComparison.Ordinal);
        Assert.Contains("You found a clamp bolt loose.", output, StringComparison.Ordinal);
        Assert.DoesNotContain("You found a crack", output, StringComparison.Ordinal);
        Assert.True(status >= before && status == 1, $"{before} {status}");
        Assert.Equal(2, Run("", ["replay", .. captures, "--feeder", feeder, "--book", files.At("none.sqlite")]).Status);
    }

    private static (int Status, string Output, string Error) Run(string lines, params string[] arguments)
    {
        using var raw = new MemoryStream();
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        using var input = new StringReader(lines);
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Input = input, Time = TimeProvider.System });
        return (status, output.ToString(), error.ToString());
    }

    private void Simulate(string name, string rear, double? stroke = null) =>
        Assert.Equal(0, TuneFiles.Run("simulate", files.Write(name + ".toml", TunedMachine.Scenario(rear, stroke)), "--out", files.At(name)).Status);
}
