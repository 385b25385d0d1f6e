using System.Net;
using System.Text.Json.Nodes;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Page.Access;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>What people do to alarms, through the page's API and from a command line, on a page that is really served.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class AlarmActsTests : IDisposable
{
    private readonly ServedPage page = new();

    public void Dispose() => page.Dispose();

    [Fact]
    public async Task A_danger_is_acknowledged_and_reset_by_name_and_the_journal_says_by_whom()
    {
        page.Raise(AlarmKind.OverStroke);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        Assert.Contains("still stands", await Refused("over-stroke/reset", HttpStatusCode.Conflict), StringComparison.Ordinal);
        var (status, said) = await Do("over-stroke/acknowledge");
        Assert.Equal((HttpStatusCode.OK, "acknowledged", "Olga"), (status, (string)said["alarm"]!["state"]!, (string)said["alarm"]!["by"]!));
        Assert.Equal("over-stroke has nothing to acknowledge", await Refused("over-stroke/acknowledge", HttpStatusCode.Conflict));
        page.Raise(AlarmKind.OverStroke, false);
        (_, said) = await Do("over-stroke/reset");
        Assert.Equal("normal", (string)said["alarm"]!["state"]!);

        var (_, journal) = await ServedPage.Answer(page.Client.GetAsync("api/v1/alarms"));
        Assert.Equal(
            [("activate", "measurement"), ("acknowledge", "Olga"), ("clear", "measurement"), ("reset", "Olga")],
            journal["steps"]!.AsArray().Select(step => ((string)step!["act"]!, (string)step["by"]!)));
    }

    [Theory]
    [InlineData("{\"reason\":\"\\ud800\"}")]
    [InlineData("{\"rea\u00ffson\":1}")]
    [InlineData("{\"\\ud800\":1}")]
    public async Task A_body_whose_text_is_no_Unicode_is_refused_and_not_an_error_of_the_page(string body)
    {
        page.Raise(AlarmKind.LowStroke);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        using var content = new ByteArrayContent(System.Text.Encoding.Latin1.GetBytes(body));
        content.Headers.ContentType = new("application/json");
        var (status, said) = await ServedPage.Answer(page.Client.PostAsync("api/v1/alarms/low-stroke/shelve", content));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains("no JSON object", said.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_operator_shelves_for_so_long_and_a_technician_for_longer_with_a_reason_that_all_see()
    {
        page.Raise(AlarmKind.LowStroke);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        Assert.Contains("`minutes`", await Refused("low-stroke/shelve", HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.Contains("`reason`", await Refused("low-stroke/shelve", HttpStatusCode.BadRequest, new() { ["minutes"] = 30 }), StringComparison.Ordinal);
        Assert.Contains("60 min at most", await Refused("low-stroke/shelve", HttpStatusCode.Forbidden, new() { ["minutes"] = 61, ["reason"] = "gate repaired" }), StringComparison.Ordinal);
        var (status, said) = await Do("low-stroke/shelve", new() { ["minutes"] = 60, ["reason"] = "gate\nrepaired" });
        Assert.Equal((HttpStatusCode.OK, "shelved", "LowStroke stands. [Olga: gate repaired]"), (status, (string)said["alarm"]!["state"]!, (string)said["alarm"]!["words"]!));
        Assert.Equal(60, (DateTimeOffset.Parse((string)said["alarm"]!["until_utc"]!, null) - page.Time.GetUtcNow()).TotalMinutes, 1.0);
        Assert.Contains("shelved: there is nothing to acknowledge", await Refused("low-stroke/acknowledge", HttpStatusCode.Conflict), StringComparison.Ordinal);
        Assert.Equal("unacknowledged", (string)(await Do("low-stroke/unshelve")).Said["alarm"]!["state"]!);

        using var other = page.Browser();
        await ServedPage.Answer(ServedPage.SignIn(other, "Tom"));
        var longer = await ServedPage.Answer(ServedPage.Post(other, "api/v1/alarms/low-stroke/shelve", new() { ["minutes"] = 600, ["reason"] = "gate out" }));
        Assert.Equal((HttpStatusCode.OK, "LowStroke stands. [Tom: gate out]"), (longer.Status, (string)longer.Said["alarm"]!["words"]!));

        // The alarm's own longest shelf holds for everybody.
        var danger = await ServedPage.Answer(ServedPage.Post(other, "api/v1/alarms/over-stroke/shelve", new() { ["minutes"] = 61, ["reason"] = "known" }));
        Assert.Equal((HttpStatusCode.Conflict, "over-stroke may be shelved for 1 h at most"), (danger.Status, (string)danger.Said["error"]!));
    }

    [Theory]
    [InlineData("Olga", "acknowledge", 200)]
    [InlineData("Olga", "out-of-service", 403)]
    [InlineData("Tom", "acknowledge", 200)]
    [InlineData("Tom", "out-of-service", 403)]
    [InlineData("Erika Ley", "acknowledge", 200)]
    [InlineData("Erika Ley", "out-of-service", 200)]
    [InlineData("Erika Ley", "return-to-service", 409)]
    public async Task Each_role_may_do_its_own(string name, string act, int status)
    {
        page.Raise(AlarmKind.LowStroke);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, name));
        var (answered, said) = await Do($"low-stroke/{act}", new() { ["reason"] = "tried" });
        Assert.Equal(status, (int)answered);
        if (status == 403)
        {
            Assert.Contains("is for the role engineer", (string)said["error"]!, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("nothing/acknowledge")]
    [InlineData("low-stroke/explode")]
    [InlineData("../../etc/passwd/acknowledge")]
    [InlineData("%2e%2e%2f%2e%2e%2fetc%2fpasswd/acknowledge")]
    [InlineData("low-stroke/acknowledge/acknowledge")]
    [InlineData("/acknowledge")]
    public async Task What_is_no_alarm_or_no_act_is_not_found(string path)
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"{page.Address}api/v1/alarms/{path}", new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }));
        using var answer = await page.Client.SendAsync(request);
        Assert.Contains(answer.StatusCode, (HttpStatusCode[])[HttpStatusCode.NotFound, HttpStatusCode.MethodNotAllowed]);
    }

    [Fact]
    public async Task An_alarm_of_one_place_among_several_is_named_with_its_slash_written_or_escaped()
    {
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Olga"));
        foreach (var id in (string[])["sensor-lost/front", "sensor-lost%2Ffront"])
        {
            Assert.Equal("sensor-lost/front has nothing to acknowledge", await Refused($"{id}/acknowledge", HttpStatusCode.Conflict));
        }
    }

    [Fact]
    public async Task Nobody_does_anything_who_is_not_signed_in_and_all_is_done_by_posts()
    {
        using var answer = await ServedPage.Post(page.Client, "api/v1/alarms/low-stroke/acknowledge");
        Assert.Equal((HttpStatusCode.Unauthorized, "Bearer"), (answer.StatusCode, answer.Headers.WwwAuthenticate.ToString()));
        using var read = await page.Client.GetAsync("api/v1/alarms/low-stroke/acknowledge");
        Assert.Equal((HttpStatusCode.MethodNotAllowed, "POST"), (read.StatusCode, read.Content.Headers.Allow.Single()));
    }

    [Fact]
    public void The_command_line_shows_and_does_the_same_with_a_token_and_says_in_one_line_why_not()
    {
        page.Raise(AlarmKind.LowStroke);
        var users = UsersFile.Read(page.UsersPath, out _)!;
        var (token, kept) = PageToken.Make("Tom", page.Time.GetUtcNow());
        (users with { Tokens = [kept] }).Write(page.UsersPath);
        var file = Path.Combine(Path.GetDirectoryName(page.UsersPath)!, "token");
        File.WriteAllText(file, token + "\n");
        File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);

        var (status, output, _) = Run("show");
        Assert.Equal(1, status);
        Assert.StartsWith("low-stroke  unacknowledged  since ", output, StringComparison.Ordinal);
        (status, output, var error) = Run("shelve", "low-stroke", "--minutes", "90", "--reason", "gate out", "--token-file", file);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("shelved until", output, StringComparison.Ordinal);
        Assert.Matches(@"\n    \S+  activate  by measurement\n    \S+  shelve  by Tom\n", output);
        Assert.Equal(0, Run("show").Status);
        Assert.Equal("low-stroke", (string)JsonNode.Parse(Run("show", "--json").Output)![0]!["id"]!);
        (status, _, error) = Run("acknowledge", "low-stroke", "--token-file", file);
        Assert.Equal(2, status);
        Assert.EndsWith("low-stroke is shelved: there is nothing to acknowledge", error.TrimEnd(), StringComparison.Ordinal);
        (status, _, error) = Run("out-of-service", "low-stroke", "--reason", "tried", "--token-file", file);
        Assert.Contains("is for the role engineer", error, StringComparison.Ordinal);
        File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.OtherRead);
        Assert.Contains("chmod 600", Run("unshelve", "low-stroke", "--token-file", file).Error, StringComparison.Ordinal);
        var closed = CommandRun.Of("alarms", "show", "--url", "http://127.0.0.1:1");
        Assert.Equal(2, closed.Status);
        Assert.Contains("no answer", Assert.Single(closed.Error.Trim().Split('\n')), StringComparison.Ordinal);
    }

    private (int Status, string Output, string Error) Run(params string[] arguments) => CommandRun.Of(["alarms", .. arguments, "--url", page.Address.ToString()]);

    private Task<(HttpStatusCode Status, JsonNode Said)> Do(string path, JsonObject? body = null) => ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/alarms/{path}", body));

    private async Task<string> Refused(string path, HttpStatusCode expected, JsonObject? body = null)
    {
        var (status, said) = await Do(path, body);
        Assert.Equal(expected, status);
        return (string)said["error"]!;
    }
}
