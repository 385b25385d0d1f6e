using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

public sealed class SimulateTests : IDisposable
{
    private const string Scenario = """
        # The sand feeder, on a slow sensor.
        [run]
        seed = 77
        duration_s = 3
        rate_hz = 3200
        [machine]
        stroke = "0.0575 in"
        [sensor]
        rate_error_ppm = -1200
        [feeder]
        name = "Sand feeder"
        """ + "\n" + FeederTables;

    private const string Feeder = "name = \"Sand feeder\"\n[drive]\n" + Drive + "[stroke]\n" + Band;
    private const string FeederTables = "[feeder.drive]\n" + Drive + "[feeder.stroke]\n" + Band;
    private const string Drive = "supply_hz = 60\nstrokes_per_cycle = 1\n";
    private const string Band = "low = \"0.055 in\"\nhigh = \"0.060 in\"\nlimit = \"0.065 in\"\n";

    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("csv")]
    [InlineData("wav")]
    public async Task A_simulated_capture_is_replayed_to_its_truth(string format)
    {
        folder.Write("sand.toml", Scenario);
        folder.Write("sand.feeder.toml", Feeder);
        var made = await Running.Run(folder.Path, "simulate", "sand.toml", "--out", $"sand.{format}");
        Assert.Equal((0, ""), (made.Status, made.Error));
        var truth = JsonNode.Parse(File.ReadAllBytes(folder.At("sand.truth.json")))!;
        var replayed = await Running.Run(folder.Path, "replay", $"sand.{format}", "--feeder", "sand.feeder.toml", "--json", "-");
        Assert.Equal((0, ""), (replayed.Status, replayed.Error));
        var document = replayed.Document();
        Contract.Check(document);
        Assert.Equal(format, (string)document["capture"]!["format"]!);
        var wanted = (double)truth["stroke"]!["pp_mm"]!;
        Assert.InRange((double)document["stroke"]!["pp_mm"]!, 0.995 * wanted, 1.005 * wanted);
        Assert.Equal(-1200, (double)document["drive"]!["sensor_clock_error_ppm"]!, 50.0);
        Assert.Equal((long)truth["capture"]!["samples"]!, (long)document["capture"]!["samples"]!);
    }

    [Fact]
    public async Task All_errors_of_a_scenario_come_at_once_with_their_lines_and_nothing_is_written()
    {
        folder.Write("bad.toml", "[run]\nduration_s = \"long\"\nsede = 4\n[machine]\nstroke = \"1.7\"\n");
        var outcome = await Running.Run(folder.Path, "simulate", "bad.toml", "--out", "bad.csv");
        outcome.ShouldRefuse(2, 3);
        Assert.Equal(["bad.toml:2:", "bad.toml:3:", "bad.toml:5:"], outcome.ErrorLines.Select(line => line[..line.IndexOf(' ', StringComparison.Ordinal)]).Order());
        Assert.False(File.Exists(folder.At("bad.csv")));
    }

    [Theory]
    [InlineData("none.toml", "a.csv", "none.toml: ")]
    [InlineData("sand.toml", "a.mp3", "a.mp3: ")]
    [InlineData("sand.toml", "nowhere/a.csv", "nowhere/a.csv: ")]
    public async Task What_cannot_be_done_is_said_in_one_line(string scenario, string target, string begins)
    {
        folder.Write("sand.toml", Scenario);
        var outcome = await Running.Run(folder.Path, "simulate", scenario, "--out", target);
        outcome.ShouldRefuse(2, 1);
        Assert.StartsWith(begins, outcome.Error, StringComparison.Ordinal);
    }
}
