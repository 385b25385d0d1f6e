using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using Xunit;

namespace StrokeWatch.Tests.Commands;

public sealed class HistoryCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void A_history_is_written_as_dated_captures_and_replayed_as_one_in_order_of_date()
    {
        var (status, _, errors) = Run("simulate", File("history.toml", "[history]\nseed = 5\nkind = \"supply-low\"\ngrowth = \"sudden\"\ncaptures = 3\nseverity = 0.6\nfirst = \"2026-03-01T08:00:00Z\""), "--out", At("out"));
        Assert.Equal((0, ""), (status, errors));
        var truth = JsonNode.Parse(System.IO.File.ReadAllBytes(At("out/history.truth.json")))!;
        Assert.Equal("supply-low", (string)truth["kind"]!);
        var captures = truth["captures"]!.AsArray().Select(capture => At("out/" + (string)capture!["file"]!)).ToList();
        Assert.EndsWith("20260301T080000Z.wav", captures[0], StringComparison.Ordinal);

        // Out of order, and renamed so that only the files themselves tell.
        string[] shuffled = [At("out/c.wav"), At("out/a.wav"), At("out/b.wav")];
        System.IO.File.Move(captures[2], shuffled[0]);
        System.IO.File.Move(captures[0], shuffled[1]);
        System.IO.File.Move(captures[1], shuffled[2]);
        var (_, json, _) = Run(["replay", .. shuffled, "--feeder", At("out/feeder.toml"), "--json", "-"]);
        var documents = JsonNode.Parse(json)!.AsArray();
        Assert.Equal(shuffled, documents.Select(document => (string)document!["capture"]!["file"]!));
        Assert.All(documents, document => Assert.Equal("file", (string)document!["capture"]!["recorded_from"]!));
        Assert.Equal([true, false, false], documents.Select(document => document!["history"] is not null));
        var history = documents[0]!["history"]!;
        Assert.Equal([shuffled[1], shuffled[2], shuffled[0]], history["captures"]!.AsArray().Select(capture => (string)capture!["file"]!));
        var strokes = history["features"]!["stroke_mm"]!.AsArray().Select(point => (double)point!["value"]!).ToList();
        Assert.Equal(3, strokes.Count);
        Assert.True(strokes[2] < 0.85 * strokes[0], string.Join(", ", strokes));
        Assert.All(history["features"]!.AsObject(), feature => Assert.Equal(3, feature.Value!.AsArray().Count));
    }

    [Fact]
    public void Several_captures_without_a_date_go_by_file_time_and_say_so()
    {
        var scenario = File("run.toml", "[run]\nduration_s = 1.5");
        foreach (var (name, day) in new[] { ("late.wav", 9), ("early.wav", 2) })
        {
            Assert.Equal(0, Run("simulate", scenario, "--out", At(name)).Status);
            System.IO.File.SetLastWriteTimeUtc(At(name), new DateTime(2026, 3, day, 0, 0, 0, DateTimeKind.Utc));
        }

        var feeder = File("feeder.toml", "[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.65 mm\"\nhigh = \"1.78 mm\"\nlimit = \"1.9 mm\"");
        var (_, json, _) = Run("replay", At("late.wav"), At("early.wav"), "--feeder", feeder, "--json", "-");
        var history = JsonNode.Parse(json)![0]!["history"]!;
        Assert.Equal(["2026-03-02T00:00:00Z", "2026-03-09T00:00:00Z"], history["captures"]!.AsArray().Select(capture => (string)capture!["recorded"]!));
        Assert.All(history["captures"]!.AsArray(), capture => Assert.True((bool)capture!["date_assumed"]!));
        var (_, text, _) = Run("replay", At("late.wav"), At("early.wav"), "--feeder", feeder);
        Assert.Contains("date assumed: the file's own time", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[history]\nkind = \"leaf-craked-front\"", "did you mean \"leaf-cracked-front\"")]
    [InlineData("[history]\nfirst = \"yesterday\"", "a date and time in quotes")]
    [InlineData("[history]\ncaptures = 1", "captures")]
    [InlineData("[[faults]]\nkind = \"tray-hevier\"", "did you mean \"tray-heavier\"")]
    [InlineData("[[faults]]\nseverity = 0.5", "`kind` is missing")]
    [InlineData("[[faults]]\nkind = \"sensor-dead\"\nseverity = 2", "severity")]
    [InlineData("[run]\nrecorded = \"2026-02-30\"", "recorded")]
    public void What_is_wrong_with_the_file_is_one_line_that_says_what_was_expected(string text, string expected)
    {
        var (status, _, errors) = Run("simulate", File("bad.toml", text), "--out", At("bad.wav"));
        Assert.Equal(2, status);
        Assert.Contains(expected, errors, StringComparison.Ordinal);
        Assert.Single(errors.Trim().Split('\n'));
    }

    [Fact]
    public void A_scenarios_faults_and_date_go_into_capture_and_truth()
    {
        var scenario = File("fault.toml", "[run]\nduration_s = 0.5\nrecorded = \"2026-03-01T08:00:00Z\"\n[[faults]]\nkind = \"tray-heavier\"\nseverity = 0.25\nfrom_s = 0.1");
        Assert.Equal(0, Run("simulate", scenario, "--out", At("fault.csv")).Status);
        Assert.Equal("# recorded: 2026-03-01T08:00:00Z", System.IO.File.ReadLines(At("fault.csv")).First());
        var fault = JsonNode.Parse(System.IO.File.ReadAllBytes(At("fault.truth.json")))!["faults"]![0]!;
        Assert.Equal(("tray-heavier", 0.25, 0.1), ((string)fault["kind"]!, (double)fault["severity"]!, (double)fault["from_s"]!));
    }

    private static (int Status, string Output, string Error) Run(params string[] arguments)
    {
        using var raw = new MemoryStream();
        using var output = new StringWriter();
        using var error = new StringWriter();
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        return (status, output + System.Text.Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }

    private string At(string name) => Path.Combine(folder, name);

    private string File(string name, string text)
    {
        System.IO.File.WriteAllText(At(name), text);
        return At(name);
    }
}
