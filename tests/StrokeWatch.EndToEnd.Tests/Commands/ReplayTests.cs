using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

public sealed class ReplayTests : IDisposable
{
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("steady-50hz", 0)]
    [InlineData("gap", 0)]
    [InlineData("rocking-tray", 0)]
    [InlineData("start-and-coast-down", 0)]
    [InlineData("over-stroke", 1)]
    [InlineData("strike-faint", 1)]
    [InlineData("low", 1)]
    [InlineData("clipped", 3)]
    [InlineData("stopped", 3)]
    public async Task The_status_tells_the_machines_state_and_standard_output_holds_one_document_of_the_contract(string name, int status)
    {
        var outcome = await Running.Run(Repository.SimData, "replay", Path.GetFileName(Repository.Capture(name)), "--feeder", $"{name}.feeder.toml", "--json", "-");
        Assert.Equal((status, ""), (outcome.Status, outcome.Error));
        var document = outcome.Document();
        Contract.Check(document);
        Assert.Equal(Path.GetFileName(Repository.Capture(name)), (string)document["capture"]!["file"]!);
        Assert.NotEmpty(document["windows"]!.AsArray());

        // Run from their own folder, the golden outputs are the command's output as it stands.
        Assert.Equal(Fields(JsonNode.Parse(File.ReadAllBytes(Path.Combine(Repository.SimData, $"{name}.golden.json")))!), Fields(document));
    }

    [Fact]
    public async Task Unreadable_input_is_status_two_with_one_line_on_standard_error()
    {
        var outcome = await Running.Run(folder.Path, "replay", "missing.csv", "--feeder", Repository.Feeder("low"), "--json", "-");
        outcome.ShouldRefuse(2, 1);
        Assert.StartsWith("missing.csv: ", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_text_for_people_gives_both_systems_of_units_and_stays_off_standard_error()
    {
        var outcome = await Running.Run(folder.Path, "replay", Repository.Capture("over-stroke"), "--feeder", Repository.Feeder("over-stroke"));
        Assert.Equal((1, ""), (outcome.Status, outcome.Error));
        Assert.Contains("2.020 mm (0.0795 in)", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("OVER-STROKE", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("Stop the feeder", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("limit 1.900 mm (0.0748 in)", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_JSON_file_holds_what_standard_output_would_and_the_text_comes_too()
    {
        string[] arguments = ["replay", Repository.Capture("high"), "--feeder", Repository.Feeder("high"), "--json"];
        var toFile = await Running.Run(folder.Path, [.. arguments, folder.At("high.json")]);
        var toOutput = await Running.Run(folder.Path, [.. arguments, "-"]);
        Assert.Equal((1, 1), (toFile.Status, toOutput.Status));
        Assert.Equal(toOutput.Out, File.ReadAllText(folder.At("high.json")));
        Assert.Contains("verdict    HIGH", toFile.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("{", toFile.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Several_captures_give_one_document_and_the_worst_status()
    {
        string[] names = ["steady-50hz", "over-stroke", "clipped"];
        var outcome = await Running.Run(folder.Path, ["replay", .. names.Select(Repository.Capture), "--feeder", Repository.Feeder("steady-50hz"), "--json", "-"]);
        Assert.Equal((3, ""), (outcome.Status, outcome.Error));
        var documents = outcome.Document().AsArray();
        Assert.Equal(3, documents.Count);
        Assert.All(documents, document => Contract.Check(document!));
        Assert.Equal(["in-band", "over-stroke", "unmeasurable"], documents.Select(document => (string)document!["stroke"]!["verdict"]!));

        var text = await Running.Run(folder.Path, ["replay", .. names.Select(Repository.Capture), "--feeder", Repository.Feeder("steady-50hz")]);
        Assert.Equal(3, text.Status);
        Assert.Equal(3, text.Out.Split('\n').Count(line => line.StartsWith("Cullet feeder, ", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task One_unreadable_capture_among_several_ends_the_run_with_nothing_half_said()
    {
        var outcome = await Running.Run(folder.Path, "replay", Repository.Capture("low"), "missing.wav", "--feeder", Repository.Feeder("low"));
        outcome.ShouldRefuse(2, 1);
    }

    [Fact]
    public async Task What_a_file_does_not_say_is_given_by_options_and_the_origin_of_the_rate_is_told()
    {
        var rows = File.ReadLines(Repository.Capture("steady-120hz")).Skip(1).Select(line => line[(line.IndexOf(',', StringComparison.Ordinal) + 1)..]);
        var bare = folder.Write("bare.csv", string.Join('\n', rows));
        string[] arguments = ["replay", bare, "--feeder", Repository.Feeder("steady-120hz"), "--json", "-", "--unit", "g"];
        var given = (await Running.Run(folder.Path, [.. arguments, "--rate-hz", "3186.56"])).Document();
        Assert.Equal(("option", 3186.56), ((string)given["capture"]!["rate_from"]!, (double)given["capture"]!["rate_hz"]!));
        var found = (await Running.Run(folder.Path, arguments)).Document();
        Assert.Equal("supply", (string)found["capture"]!["rate_from"]!);
        Assert.NotEmpty(found["capture"]!["guesses"]!.AsArray());
        foreach (var document in (JsonNode[])[given, found])
        {
            Contract.Check(document);
            var truth = (double)Repository.Truth("steady-120hz")["stroke"]!["pp_mm"]!;
            Assert.InRange((double)document["stroke"]!["pp_mm"]!, 0.995 * truth, 1.005 * truth);
        }

        // The rate itself was taken from the mains: then nothing is left to tell the clock's error.
        Assert.Null(found["drive"]!["sensor_clock_error_ppm"]);
    }

    [Fact]
    public async Task Help_and_version_are_results()
    {
        foreach (var argument in new[] { "--help", "--version" })
        {
            var outcome = await Running.Run(folder.Path, argument);
            Assert.Equal((0, ""), (outcome.Status, outcome.Error));
            Assert.NotEqual("", outcome.Out);
        }
    }

    /// <summary>Numbers aside, which the replay tests compare.</summary>
    private static List<string> Fields(JsonNode? node, string path = "") => node switch
    {
        JsonObject table => [.. table.SelectMany(pair => Fields(pair.Value, $"{path}.{pair.Key}"))],
        JsonArray list => [.. list.SelectMany((value, at) => Fields(value, $"{path}[{at}]"))],
        JsonValue value when value.GetValueKind() == System.Text.Json.JsonValueKind.Number => [$"{path} number"],
        _ => [$"{path} {node?.ToJsonString() ?? "null"}"],
    };
}
