using System.Net;
using System.Text.Json.Nodes;
using StrokeWatch.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>Baselines through the page's API.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class BaselineActsTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-baselines-").FullName;
    private readonly ServedPage page;

    public BaselineActsTests() => page = new(sees: sight => sight with { Tuning = sight.Tuning! with { Baseline = Kept } });

    private string Kept => Path.Combine(folder, "sand.baseline.json");

    public void Dispose()
    {
        page.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task An_engineer_tells_a_baseline_and_takes_an_earlier_one_again_and_none_is_lost()
    {
        var none = await Versions();
        Assert.Empty(none["versions"]!.AsArray());

        // Each name that is offered may be told.
        var names = none["may_hold"]!.AsArray().Select(name => (string)name!).ToList();
        Assert.Contains("natural_frequency_hz", names);
        Assert.Equal(names.Count, ToldFeatures.Read(names.Select(name => name + "=1,0.1"), out _)!.Count);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Tom"));
        Assert.Equal(HttpStatusCode.Forbidden, (await Do("tell", new() { ["features"] = "stroke_mm=1.72,0.01" })).Status);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        Assert.Equal(HttpStatusCode.OK, (await Do("tell", new() { ["features"] = "stroke_mm=1.72,0.01 natural_frequency_hz=66.2,0.1", ["note"] = "commissioning" })).Status);
        Assert.Equal(HttpStatusCode.OK, (await Do("tell", new() { ["features"] = "stroke_mm=1.60,0.01" })).Status);
        var (status, said) = await Do("take", new() { ["version"] = 1, ["note"] = "a clamp was loose" });
        Assert.Equal((HttpStatusCode.OK, 3, "version 1 again: Erika Ley: a clamp was loose"), (status, (int)said["baseline"]!["version"]!, (string)said["baseline"]!["note"]!));

        var versions = (await Versions())["versions"]!.AsArray();
        Assert.Equal([(1, false), (2, false), (3, true)], versions.Select(one => ((int)one!["version"]!, (bool)one["in_force"]!)));
        Assert.Equal((1.72, 0.01), ((double)versions[2]!["features"]![0]!["mean"]!, (double)versions[2]!["features"]![0]!["spread"]!));
        Assert.Equal(66.2, BaselineFile.Read(Kept, new(Kept))!.Current!.Find("natural_frequency_hz")!.Mean);
    }

    [Theory]
    [InlineData("take", """{"version":4}""", HttpStatusCode.Conflict, "sand.baseline.json: holds no baseline yet")]
    [InlineData("take", "{}", HttpStatusCode.BadRequest, "`version`")]
    [InlineData("tell", """{"features":"stroke_mm=1.7"}""", HttpStatusCode.BadRequest, "mean and spread were expected")]
    [InlineData("tell", """{"features":""}""", HttpStatusCode.BadRequest, "`features`")]
    public async Task What_will_not_do_is_said_in_one_line_and_writes_nothing(string what, string body, HttpStatusCode expected, string words)
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        var (status, said) = await Do(what, JsonNode.Parse(body)!.AsObject());
        Assert.Equal(expected, status);
        Assert.Contains(words, (string)said["error"]!, StringComparison.Ordinal);
        Assert.DoesNotContain(folder, (string)said["error"]!, StringComparison.Ordinal);
        Assert.False(File.Exists(Kept));
    }

    private async Task<JsonNode> Versions() => JsonNode.Parse(await page.Client.GetStringAsync("api/v1/baselines"))!;

    private Task<(HttpStatusCode Status, JsonNode Said)> Do(string what, JsonObject body) => ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/baselines/{what}", body));
}
