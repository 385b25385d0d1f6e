using System.Text;
using StrokeWatch.Commands;
using StrokeWatch.Tests.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>What goes wrong when several captures are replayed as one history: one line each that says what, where and what to do; never a history that misleads, never a capture written over.</summary>
public sealed class HistoryMisuseTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;
    private string said = "";

    public HistoryMisuseTests() => File.Copy(Path.Combine(Pages.SimData, "steady-60hz.feeder.toml"), At("sand.toml"));

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void A_capture_named_twice_is_refused_by_whatever_path()
    {
        Sand("sand-2026-03-01.wav", "sand-2026-03-05.wav");
        Refused("is named twice", "sand-2026-03-01.wav", "sand-2026-03-05.wav", Path.Combine(".", "sand-2026-03-01.wav"));
        File.CreateSymbolicLink(At("again.wav"), At("sand-2026-03-05.wav"));
        Refused("again.wav: is named twice", "sand-2026-03-01.wav", "sand-2026-03-05.wav", "again.wav");
    }

    [Fact]
    public void A_copy_of_the_same_day_is_refused()
    {
        Sand("sand-2026-03-01.wav", "copy-2026-03-01.wav", "sand-2026-03-05.wav");
        Refused("holds the same as", "sand-2026-03-01.wav", "copy-2026-03-01.wav", "sand-2026-03-05.wav");
    }

    [Fact]
    public void Captures_that_overlap_are_refused_with_both_times()
    {
        Sand("a-2026-03-01T080000.wav");
        Other("b-2026-03-01T080002.wav");
        var error = Refused("still runs", "a-2026-03-01T080000.wav", "b-2026-03-01T080002.wav");
        Assert.Contains("2026-03-01T08:00:02Z", error, StringComparison.Ordinal);
        Assert.Contains("2026-03-01T08:00:00Z", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Captures_of_two_feeders_are_refused_with_both_names()
    {
        Sand("sand-2026-03-01.wav", "cullet-2026-03-04.wav");
        File.WriteAllText(At("cullet-2026-03-04.feeder.toml"), File.ReadAllText(At("sand.toml")).Replace("Sand feeder", "Cullet feeder", StringComparison.Ordinal));
        var error = Refused("replay the captures of one feeder at a time", "sand-2026-03-01.wav", "cullet-2026-03-04.wav");
        Assert.Contains("Cullet feeder", error, StringComparison.Ordinal);
        Assert.Contains("Sand feeder", error, StringComparison.Ordinal);

        // Alone, whoever names the feeder file means it; and a file without a name names none.
        Assert.Equal(0, Replay("cullet-2026-03-04.wav").Status);
        File.WriteAllText(At("cullet-2026-03-04.feeder.toml"), "[drive]\nsupply_hz = 60\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1 mm\"\nhigh = \"2 mm\"\nlimit = \"3 mm\"\n");
        Assert.Equal((0, ""), Replay("sand-2026-03-01.wav", "cullet-2026-03-04.wav"));
    }

    [Fact]
    public void A_clock_that_was_never_set_is_refused_for_it_would_pass_for_the_healthy_machine()
    {
        Sand("sand-1970-01-01.wav", "sand-2026-03-05.wav");
        Refused("sand-1970-01-01.wav: says it was recorded on 1970-01-01", "sand-1970-01-01.wav", "sand-2026-03-05.wav");
    }

    [SkippableFact]
    public void A_capture_through_a_pipe_that_says_no_date_is_told_and_makes_no_history()
    {
        Skip.IfNot(OperatingSystem.IsLinux());
        Sand("sand-2026-03-01.wav");
        using var pipe = new System.IO.Pipes.AnonymousPipeServerStream(System.IO.Pipes.PipeDirection.Out);
        var bytes = File.ReadAllBytes(At("sand-2026-03-01.wav"));
        var feeding = Task.Run(() =>
        {
            using (pipe)
            {
                pipe.Write(bytes);
            }
        });
        Assert.Equal((0, ""), Replay("sand-2026-03-01.wav", $"/dev/fd/{pipe.GetClientHandleAsString()}"));
        feeding.Wait(TimeSpan.FromSeconds(20));
        Assert.Contains("has no date", Note(), StringComparison.Ordinal);
        Assert.DoesNotContain("in order of date", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Dates_that_cannot_tell_the_order_are_told()
    {
        Sand("before-2026-03-01.wav");
        Other("after-2026-03-01.wav");
        Assert.Equal((0, ""), Replay("before-2026-03-01.wav", "after-2026-03-01.wav"));
        Assert.Contains("only their day is known", Note(), StringComparison.Ordinal);

        Sand("one.wav");
        Other("two.wav");
        foreach (var name in (string[])["one.wav", "two.wav"])
        {
            File.SetLastWriteTimeUtc(At(name), new DateTime(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc));
        }

        Assert.Equal((0, ""), Replay("one.wav", "two.wav"));
        Assert.Contains("by their files' own times", Note(), StringComparison.Ordinal);
    }

    [Fact]
    public void Results_are_never_written_over_a_capture_or_over_each_other()
    {
        Sand("sand-2026-03-01.wav", "sand-2026-03-05.wav");
        var before = File.ReadAllBytes(At("sand-2026-03-05.wav"));
        Refused("is read by this very command", "sand-2026-03-01.wav", "sand-2026-03-05.wav", "--json", At("sand-2026-03-05.wav"));
        Refused("is read by this very command", "sand-2026-03-01.wav", "--json", At("sand.toml"));
        Refused("is the page's file already", "sand-2026-03-01.wav", "--json", At("out"), "--report", At("out"));
        Assert.Equal(before, File.ReadAllBytes(At("sand-2026-03-05.wav")));
    }

    [Theory]
    [InlineData("empty-2026-03-09.wav", "is empty")]
    [InlineData("text-2026-03-09.wav", "text-2026-03-09.wav")]
    [InlineData("nowhere-2026-03-09.wav", "there is no such file")]
    [InlineData("folder", "is a directory")]
    public void One_bad_capture_among_good_ones_is_named(string name, string says)
    {
        Sand("sand-2026-03-01.wav", "sand-2026-03-05.wav");
        File.WriteAllText(At("empty-2026-03-09.wav"), "");
        File.WriteAllText(At("text-2026-03-09.wav"), "no capture", Encoding.ASCII);
        Directory.CreateDirectory(At("folder"));
        Refused(says, "sand-2026-03-01.wav", "sand-2026-03-05.wav", name);
    }

    [Fact]
    public void Captures_in_good_order_say_nothing()
    {
        Sand("sand-2026-03-05.wav", "sand-2026-03-01.wav", "sand-2026-03-01T0900.wav");
        Assert.Equal((0, ""), Replay("sand-2026-03-05.wav", "sand-2026-03-01.wav", "sand-2026-03-01T0900.wav"));
        Assert.DoesNotContain("  order      ", said, StringComparison.Ordinal);
    }

    /// <summary>Gives the one line of the text that says what the order lacks.</summary>
    private string Note() => Assert.Single(said.Split('\n'), line => line.StartsWith("  order      ", StringComparison.Ordinal));

    private string At(string name) => Path.Combine(folder, name);

    private void Sand(params string[] names) => Array.ForEach(names, name => File.Copy(Path.Combine(Pages.SimData, "steady-60hz.wav"), At(name)));

    /// <summary>Another capture of the same machine: the same but for one sample.</summary>
    private void Other(string name)
    {
        var bytes = File.ReadAllBytes(Path.Combine(Pages.SimData, "steady-60hz.wav"));
        bytes[^40] ^= 1;
        File.WriteAllBytes(At(name), bytes);
    }

    private string Refused(string says, params string[] arguments)
    {
        var (status, error) = Replay(arguments);
        var line = Assert.Single(error.Trim().Split('\n'));
        Assert.Contains(says, line, StringComparison.Ordinal);
        Assert.Equal(2, status);
        return line;
    }

    private (int Status, string Error) Replay(params string[] arguments)
    {
        using StringWriter output = new(), error = new();
        using var raw = new MemoryStream();
        var status = CommandLine.Run(
            ["replay", .. arguments.Select(argument => argument.StartsWith('-') || Path.IsPathRooted(argument) ? argument : Path.Combine(folder, argument)), "--feeder", At("sand.toml")],
            new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        said = output.ToString();
        return (status, error.ToString());
    }
}
