using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Page;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Tests.House;
using Xunit;

namespace StrokeWatch.Tests.Page.Access;

/// <summary>All that is done by a POST, as the API's document has it: each is guarded alike, and each answers what the document says.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed partial class DocumentedActsTests : IDisposable
{
    private const string Strike = "20260304T080000Z-strike.wav";

    /// <summary>A body that is done, in an order in which each can be; the tuning session's are held against the document where a feeder is tuned (TuningApiTests).</summary>
    private static readonly (string Path, string Body)[] Done =
    [
        ("alarms/low-stroke/acknowledge", """{"reason":"seen"}"""),
        ("alarms/low-stroke/shelve", """{"minutes":30,"reason":"gate repaired"}"""),
        ("alarms/low-stroke/unshelve", "{}"),
        ("alarms/low-stroke/out-of-service", """{"reason":"gate out"}"""),
        ("alarms/low-stroke/return-to-service", "{}"),
        ("alarms/over-stroke/acknowledge", "{}"),
        ("alarms/over-stroke/reset", "{}"),
        ("book/note", """{"text":"a rattle"}"""),
        ("book/set", """{"kind":"air-gap","gap":"2.2 mm"}"""),
        ("book/remind", """{"kind":"inspection","every_h":500}"""),
        ("baselines/tell", """{"features":"stroke_mm=1.72,0.01"}"""),
        ("baselines/take", """{"version":1}"""),
        ("captures/keep", $$"""{"name":"{{Strike}}"}"""),
        ("captures/release", $$"""{"name":"{{Strike}}"}"""),
        ("sign-in", $$"""{"name":"Erika Ley","password":"{{ServedPage.Password}}"}"""),
        ("sign-out", "{}"),
    ];

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-document-").FullName;
    private readonly ServedPage page;

    public DocumentedActsTests()
    {
        File.WriteAllBytes(Path.Combine(folder, Strike), new byte[2_000]);
        page = new(sees: sight => sight with
        {
            Captures = folder,
            Waveforms = new AlarmCaptureOptions { Folder = folder },
            Tuning = sight.Tuning! with { Baseline = Path.Combine(folder, "sand.baseline.json") },
        });
    }

    public void Dispose()
    {
        page.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Each_answers_what_the_document_says_once_it_is_done()
    {
        var document = await Document();
        var schema = new Schema(document);
        await ServedPage.Answer(ServedPage.SignIn(page.Client, "Erika Ley"));
        page.Raise(AlarmKind.LowStroke);
        page.Raise(AlarmKind.OverStroke);
        var seen = new HashSet<string>();
        foreach (var (path, body) in Done)
        {
            if (path.EndsWith("/reset", StringComparison.Ordinal))
            {
                page.Raise(AlarmKind.OverStroke, raised: false);
            }

            var (status, said) = await ServedPage.Answer(ServedPage.Post(page.Client, $"api/v1/{path}", JsonNode.Parse(body)!.AsObject()));
            Assert.Equal((path, HttpStatusCode.OK, ""), (path, status, (string?)said["error"] ?? ""));
            var documented = "/api/v1/" + Alarm().Replace(path, "alarms/{id}/");
            Assert.Empty(schema.Faults(said, document["paths"]![documented]!["post"]!["responses"]!["200"]!["content"]!["application/json"]!["schema"]!));
            seen.Add(documented);
        }

        Assert.Equal(Posts(document).Where(path => !path.StartsWith("/api/v1/tuning/", StringComparison.Ordinal)).Order(StringComparer.Ordinal), seen.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task None_is_done_from_another_site_without_signing_in_or_with_too_much()
    {
        var document = await Document();
        using var jar = new SocketsHttpHandler();
        using var signed = page.Browser(jar);
        await ServedPage.Answer(ServedPage.SignIn(signed, "Erika Ley"));
        foreach (var path in Posts(document).Select(path => path[1..].Replace("{id}", "low-stroke", StringComparison.Ordinal)))
        {
            async Task<HttpStatusCode> Try(Action<HttpClient> spoil, string body = "{}", bool known = true)
            {
                using var client = known ? new HttpClient(jar, disposeHandler: false) { BaseAddress = page.Address } : new HttpClient { BaseAddress = page.Address };
                client.DefaultRequestHeaders.Add("Origin", page.Address.GetLeftPart(UriPartial.Authority));
                client.DefaultRequestHeaders.Add("X-StrokeWatch", "1");
                spoil(client);
                using var answer = await client.PostAsync(path, new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
                Assert.NotNull(document["paths"]![$"/{path.Replace("low-stroke", "{id}", StringComparison.Ordinal)}"]!["post"]!["responses"]![((int)answer.StatusCode).ToString(System.Globalization.CultureInfo.InvariantCulture)]);
                return answer.StatusCode;
            }

            Assert.Equal((path, HttpStatusCode.Forbidden), (path, await Try(client => client.DefaultRequestHeaders.Remove("X-StrokeWatch"))));
            Assert.Equal((path, HttpStatusCode.Forbidden), (path, await Try(client =>
            {
                client.DefaultRequestHeaders.Remove("Origin");
                client.DefaultRequestHeaders.Add("Origin", "http://elsewhere.example");
            })));
            Assert.Equal((path, HttpStatusCode.Forbidden), (path, await Try(client => client.DefaultRequestHeaders.Add("Sec-Fetch-Site", "cross-site"))));
            Assert.Equal((path, HttpStatusCode.RequestEntityTooLarge), (path, await Try(_ => { }, new string(' ', 5_000))));
            if (!path.EndsWith("sign-in", StringComparison.Ordinal) && !path.EndsWith("sign-out", StringComparison.Ordinal))
            {
                Assert.Equal((path, HttpStatusCode.Unauthorized), (path, await Try(_ => { }, known: false)));
            }
        }
    }

    [Fact]
    public async Task Every_path_that_the_program_knows_is_in_the_document()
    {
        var documented = (await Document())["paths"]!.AsObject().Select(path => path.Key).ToList();
        var known = SourceTree.Code("src/StrokeWatch/Page").SelectMany(file => Literal().Matches(SourceTree.Text(file)).Select(match => match.Groups[1].Value)).Distinct().ToList();
        Assert.True(known.Count > 15, $"{known.Count} found");
        Assert.All(known, path => Assert.Contains(documented, one => one == path || one.StartsWith(path.TrimEnd('/') + "/", StringComparison.Ordinal)));
    }

    private async Task<JsonNode> Document() => JsonNode.Parse(await page.Client.GetStringAsync("api/v1/openapi.json"))!;

    private static IEnumerable<string> Posts(JsonNode document) => document["paths"]!.AsObject().Where(path => path.Value!["post"] is not null).Select(path => path.Key);

    [GeneratedRegex("^alarms/[a-z-]+/")]
    private static partial Regex Alarm();

    [GeneratedRegex("\"(/api/v1/[a-z0-9/.-]+|/metrics)\"")]
    private static partial Regex Literal();
}
