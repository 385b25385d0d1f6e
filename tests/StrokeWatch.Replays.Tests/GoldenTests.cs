using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.Replays.Tests;

/// <summary>Every capture against its golden output. To re-record them is a deliberate step; sim-data/README.md says how.</summary>
public sealed class GoldenTests
{
    private const string Switch = "STROKEWATCH_RERECORD";

    [Theory]
    [ClassData(typeof(CaseNames))]
    public void A_replay_gives_its_golden_output(string name)
    {
        var now = Replayed.Run(name).Document();
        var path = Cases.At(name, ".golden.json");
        if (Environment.GetEnvironmentVariable(Switch) == "1")
        {
            File.WriteAllText(path, Written(now));
            Assert.Fail($"re-recorded sim-data/{name}.golden.json; read the difference, give the reason in the commit, and run again without {Switch}");
        }

        Assert.True(File.Exists(path), $"sim-data/{name}.golden.json is missing; sim-data/README.md says how to record it");
        var differences = Differences.Between(JsonNode.Parse(File.ReadAllBytes(path)), now);
        Assert.True(differences.Count == 0, $"sim-data/{name}.golden.json, golden and now:\n{string.Join("\n", differences.Take(20))}");
    }

    [Theory]
    [ClassData(typeof(CaseNames))]
    public void Two_replays_give_the_same_bytes(string name)
    {
        var (one, two) = (Replayed.Run(name), Replayed.Run(name));
        Assert.NotEmpty(one.Bytes);
        Assert.Equal(one.Bytes, two.Bytes);
        Assert.Equal(one.Status, two.Status);
    }

    private static string Written(JsonNode document)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.Default }))
        {
            document.WriteTo(json);
        }

        return System.Text.Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }
}
