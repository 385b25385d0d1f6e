using System.Net;
using System.Text.Json.Nodes;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>Keeping captures through the page's API and the command line.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class CaptureActsTests : IDisposable
{
    private const string Strike = "20260304T080000Z-strike.wav";
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-kept-").FullName;
    private readonly ServedPage page;

    public CaptureActsTests()
    {
        File.WriteAllBytes(Path.Combine(folder, Strike), new byte[2_000]);
        File.WriteAllBytes(Path.Combine(folder, "trial.wav"), new byte[2_000]);
        page = new(sees: sight => sight with { Captures = folder, Waveforms = new AlarmCaptureOptions { Folder = folder } });
    }

    public void Dispose()
    {
        page.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_technician_keeps_a_capture_and_lets_it_go_again_an_operator_does_not()
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        Assert.Equal(HttpStatusCode.Forbidden, (await Do("keep", new() { ["name"] = Strike })).Status);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Tom"));
        var (status, said) = await Do("keep", new() { ["name"] = Strike, ["reason"] = "the clamp that\nbroke" });
        Assert.Equal((HttpStatusCode.OK, "kept"), (status, (string)said["capture"]!["keep"]!));
        Assert.EndsWith("Tom: the clamp that broke", (string)said["capture"]!["keep_words"]!, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(folder, "20260304T080000Z-strike.keep")));
        var listed = JsonNode.Parse(await page.Client.GetStringAsync("api/v1/captures"))!["captures"]!.AsArray();
        Assert.Equal([(Strike, "kept"), ("trial.wav", "always")], listed.Select(one => ((string)one!["name"]!, (string)one["keep"]!)).Order());
        Assert.Equal(HttpStatusCode.Conflict, (await Do("keep", new() { ["name"] = Strike })).Status);
        Assert.Equal("no", (string)(await Do("release", new() { ["name"] = Strike })).Said["capture"]!["keep"]!);
        Assert.False(File.Exists(Path.Combine(folder, "20260304T080000Z-strike.keep")));
    }

    [Theory]
    [InlineData("../20260304T080000Z-strike.wav", HttpStatusCode.NotFound)]
    [InlineData("20260304T080000Z-strike.keep", HttpStatusCode.NotFound)]
    [InlineData("", HttpStatusCode.BadRequest)]
    [InlineData("trial.wav", HttpStatusCode.Conflict)]
    public async Task Nothing_outside_the_list_is_kept(string name, HttpStatusCode expected)
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Tom"));
        Assert.Equal(expected, (await Do("keep", new() { ["name"] = name })).Status);
        Assert.Equal([Strike, "trial.wav"], Directory.GetFiles(folder).Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_command_line_does_the_same_with_a_token()
    {
        var users = UsersFile.Read(page.UsersPath, out _)!;
        var (token, kept) = PageToken.Make("Tom", page.Time.GetUtcNow());
        (users with { Tokens = [kept] }).Write(page.UsersPath);
        var file = Path.Combine(Path.GetDirectoryName(page.UsersPath)!, "token");
        File.WriteAllText(file, token + "\n");
        File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        (int Status, string Output, string Error) Run(params string[] arguments) => CommandRun.Of(["captures", .. arguments, "--url", page.Address.ToString()]);

        var (status, output, error) = Run("keep", Strike, "--reason", "clamp", "--token-file", file);
        Assert.Equal((0, ""), (status, error));
        Assert.Matches($@"^{Strike}  \S+  2000 bytes  kept: \S+ \S+ UTC, Tom: clamp\n$", output);
        Assert.Contains("trial.wav", Run("show").Output, StringComparison.Ordinal);
        Assert.Equal(2, JsonNode.Parse(Run("show", "--json").Output)!.AsArray().Count);
        Assert.Equal(0, Run("release", Strike, "--token-file", file).Status);
        (status, _, error) = Run("release", Strike, "--token-file", file);
        Assert.Equal(2, status);
        Assert.StartsWith("strokewatch captures: ", error, StringComparison.Ordinal);
        Assert.EndsWith($"{Strike} is not kept", error.TrimEnd(), StringComparison.Ordinal);
    }

    private Task<(HttpStatusCode Status, JsonNode Said)> Do(string what, JsonObject body) => ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/captures/{what}", body));
}
