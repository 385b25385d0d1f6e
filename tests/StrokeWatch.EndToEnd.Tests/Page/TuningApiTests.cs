using System.Net;
using System.Runtime.Versioning;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Page.Access;
using StrokeWatch.Tests.Commands;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>A whole tuning session by the API, while the daemon watches the same feeder.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class TuningApiTests(ITestOutputHelper output)
{
    private const int MeasureSeconds = 12;

    private HttpClient client = null!;
    private JsonNode view = null!;
    private Schema schema = null!;

    [SkippableFact]
    public async Task A_technician_tunes_a_feeder_by_the_api_to_the_signed_record_and_a_terminal_waits_meanwhile()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var run = await StaffedRun.Start(TunedTray.Of("5x4.0"), TunedMachine.Feeder);
        var tray = new TunedTray(run, 11);
        using var browser = new HttpClient { BaseAddress = new(run.Address) };
        client = browser;
        client.DefaultRequestHeaders.Add("Origin", run.Address.TrimEnd('/'));
        client.DefaultRequestHeaders.Add(PageAccess.Header, "1");
        var document = JsonNode.Parse(await client.GetStringAsync("api/v1/openapi.json"))!;
        schema = new(document);

        Assert.Equal(HttpStatusCode.Unauthorized, await Post("tuning/start", new()));
        Assert.Equal(HttpStatusCode.OK, await Post("sign-in", new() { ["name"] = "Olga", ["password"] = StaffedRun.Password }));
        Assert.Equal(HttpStatusCode.Forbidden, await Post("tuning/start", new()));
        Assert.Equal(HttpStatusCode.OK, await Post("sign-in", new() { ["name"] = "Tom", ["password"] = StaffedRun.Password }));
        Assert.Equal(HttpStatusCode.Conflict, await Post("tuning/answer", new() { ["turn"] = 1, ["answer"] = "yes" }));
        Assert.Equal(HttpStatusCode.OK, await Post("tuning/start", new() { ["seconds"] = MeasureSeconds }));
        Assert.Equal("cautions", Step);
        Assert.Contains("lock and tag", view["session"]!["step"]!["text"]!.ToJsonString(), StringComparison.Ordinal);

        // No terminal gets in between, and no question is answered twice.
        var terminal = await Running.Run(run.Folder.Path, "tune", "session", "--feeder", "cullet.toml", "--resume");
        Assert.Equal(2, terminal.Status);
        Assert.Contains("on the daemon's page", terminal.Error, StringComparison.Ordinal);
        var turn = (int)view["session"]!["turn"]!;
        await Answer();
        Assert.Equal(HttpStatusCode.Conflict, await Post("tuning/answer", new() { ["turn"] = turn, ["answer"] = "1" }));
        Assert.Equal("empty", tray.Read(book => book.Sessions.Open()!.Step));
        await Answer("rubbish");
        Assert.Contains("is no answer here", (string)view["session"]!["refused"]!, StringComparison.Ordinal);
        await Answer();

        // Left, and gone on with at that very step.
        Assert.Equal(HttpStatusCode.OK, await Post("tuning/leave", null));
        Assert.Equal(("voltage", null), ((string)view["open"]!["step"]!, view["session"]));
        Assert.Equal(HttpStatusCode.Conflict, await Post("tuning/start", new()));
        Assert.Equal(HttpStatusCode.OK, await Post("tuning/start", new() { ["resume"] = true, ["seconds"] = MeasureSeconds }));
        Assert.Equal("voltage", Step);

        for (var i = 0; i < 60 && !(bool)view["session"]!["step"]!["over"]!; i++)
        {
            if (Step == "measure")
            {
                Assert.Equal(["live"], view["session"]!["step"]!["choices"]!.AsArray().Select(choice => (string)choice!["id"]!));
                await tray.Starts();
                await Answer();
                Assert.NotNull(view["session"]!["measuring"]);
                Assert.Equal(HttpStatusCode.Conflict, await Post("tuning/answer", new() { ["turn"] = (int)view["session"]!["turn"]!, ["answer"] = "live" }));
                Assert.Equal(HttpStatusCode.Conflict, await Post("tuning/leave", null));
                var said = "";
                await Until(
                    async () =>
                    {
                        await Look();
                        said += view["session"]!["measuring"]?.ToJsonString();
                        return view["session"]!["measuring"] is null;
                    },
                    40);
                Assert.Contains("Now switch the feeder off", said, StringComparison.Ordinal);
                Assert.Contains("\"pp_mm\":1.", said, StringComparison.Ordinal);
                output.WriteLine(view["session"]!["step"]!["text"]!.ToJsonString());
                Assert.Null((string?)view["session"]!["refused"]);
            }
            else
            {
                await Answer();
            }
        }

        Assert.Equal("over", Step);
        Assert.Contains("signed     Tom", view["session"]!["step"]!["text"]!.ToJsonString(), StringComparison.Ordinal);
        tray.ShouldBeTuned("Tom");
        await Left(run.Folder, tray);
        var after = await Running.Run(run.Folder.Path, "tune", "session", "--feeder", "cullet.toml", "--resume");
        Assert.Contains("no unfinished session", after.Error, StringComparison.Ordinal);
        Assert.Contains("Page: Tom begins a tuning session", run.Said, StringComparison.Ordinal);
    }

    /// <summary>What was measured is left as captures beside the book, and a replay of each says of it what the session did.</summary>
    private static async Task Left(TempFolder folder, TunedTray tray)
    {
        foreach (var trial in tray.Read(book => book.Sessions.Trials(book.Sessions.All()[^1].Id)))
        {
            Assert.Matches(@"^cullet\.trial-\d{8}T\d{6}Z\.wav$", trial.Capture);
            var replayed = await Running.Run(folder.Path, "replay", trial.Capture!, "--feeder", "cullet.toml", "--json", "-");
            var stroke = JsonNode.Parse(replayed.Out)!["stroke"]!;
            Assert.Equal(trial.StrokeMetres!.Value * 1e3, (double)stroke["pp_mm"]!, 0.005);
        }
    }

    private string Step => (string)view["session"]!["step"]!["id"]!;

    /// <summary>Answers with the first choice, or with nothing where words are asked for.</summary>
    private async Task Answer(string? answer = null)
    {
        var choices = view["session"]!["step"]!["choices"]!.AsArray();
        Assert.Equal(HttpStatusCode.OK, await Post("tuning/answer", new() { ["turn"] = (int)view["session"]!["turn"]!, ["answer"] = answer ?? (choices.Count > 0 ? (string)choices[0]!["id"]! : "") }));
    }

    private async Task Look() => view = JsonNode.Parse(await client.GetStringAsync("api/v1/tuning"))!;

    private async Task<HttpStatusCode> Post(string path, JsonObject? body)
    {
        using var answer = await client.PostAsync("api/v1/" + path, body is null ? null : new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json"));
        var said = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
        if (path.StartsWith("tuning", StringComparison.Ordinal) && answer.StatusCode == HttpStatusCode.OK)
        {
            view = said;
            Assert.Empty(schema.Faults(view, new JsonObject { ["$ref"] = "#/components/schemas/Tuning" }));
        }

        return answer.StatusCode;
    }

    internal static async Task Until(Func<Task<bool>> come, double seconds)
    {
        var until = DateTime.UtcNow.AddSeconds(seconds);
        while (!await come())
        {
            Assert.True(DateTime.UtcNow < until, "it did not come");
            await Task.Delay(200);
        }
    }
}
