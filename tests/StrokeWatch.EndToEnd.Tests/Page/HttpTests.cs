using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>The page's server from outside, while the demonstration runs.</summary>
[Collection(RealTime.Name)]
public sealed class HttpTests(HttpTests.Served served) : IClassFixture<HttpTests.Served>
{
    private HttpClient Client => served.Client;

    [Fact]
    public async Task The_status_tells_the_stroke_in_both_systems_with_its_uncertainty_and_its_age()
    {
        var status = await Status(one => one["stroke"]!["pp_mm"] is not null);
        var stroke = status["stroke"]!;
        Assert.InRange((double)stroke["pp_mm"]!, 1.6, 2.1);
        Assert.Equal((double)stroke["pp_mm"]! / 25.4, (double)stroke["pp_in"]!, 1e-7);
        Assert.Equal((double)stroke["uncertainty_mm"]! / 25.4, (double)stroke["uncertainty_in"]!, 1e-7);
        Assert.InRange((double)stroke["uncertainty_mm"]!, 0.001, 0.05);
        Assert.Null(stroke["reason"]);
        Assert.Equal(1.9, (double)status["band"]!["limit_mm"]!);
        Assert.InRange((double)status["age_s"]!, 0, 1.5);
        Assert.Equal(("running", "Cullet feeder", false), ((string)status["motion"]!, (string)status["feeder"]!["name"]!, (bool)status["acknowledge"]!["possible"]!));
    }

    [Fact]
    public async Task Whoever_follows_hears_every_window_and_a_beat_each_second()
    {
        var document = (await Client.GetFromJsonAsync<JsonNode>("api/v1/openapi.json"))!;
        var schema = new Schema(document);
        using var stream = new StreamReader(await Client.GetStreamAsync("api/v1/live"));
        var events = new List<string>();
        var windows = new List<long>();
        var first = DateTime.UtcNow;
        while (DateTime.UtcNow - first < TimeSpan.FromSeconds(3.2))
        {
            var line = await stream.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(3));
            if (line!.StartsWith("event: ", StringComparison.Ordinal))
            {
                events.Add(line[7..]);
                var data = (await stream.ReadLineAsync())!;
                Assert.StartsWith("data: ", data, StringComparison.Ordinal);
                var told = JsonNode.Parse(data[6..])!;
                Assert.Empty(schema.Faults(told, document["components"]!["schemas"]![events[^1] == "status" ? "Status" : "Beat"]!));
                windows.Add((long)told["windows"]!);
            }
        }

        Assert.Equal("status", events[0]);
        Assert.InRange(events.Count(name => name == "beat"), 2, 4);
        Assert.True(windows[^1] - windows[0] >= 4);
        Assert.Equal(windows.Order(), windows);
        Assert.All(windows.Distinct().Zip(windows.Distinct().Skip(1)), pair => Assert.Equal(pair.First + 1, pair.Second));
    }

    [Fact]
    public async Task Every_path_of_the_document_answers_as_it_says_and_every_key_is_in_it()
    {
        await Status(one => (long)one["windows"]! > 8);
        var document = (await Client.GetFromJsonAsync<JsonNode>("api/v1/openapi.json"))!;
        var schema = new Schema(document);
        var paths = document["paths"]!.AsObject();
        Assert.True(paths.Count > 5);
        foreach (var (path, item) in paths)
        {
            if (item!["post"] is { } post)
            {
                // Nobody can sign in to the demonstration; what is posted and how it is answered is looked at where somebody can.
                using var refused = await Client.PostAsync(path.Replace("{id}", "over-stroke", StringComparison.Ordinal), null);
                Assert.NotNull(post["responses"]![((int)refused.StatusCode).ToString(CultureInfo.InvariantCulture)]);
                Assert.Empty(schema.Faults(await refused.Content.ReadFromJsonAsync<JsonNode>(), document["components"]!["schemas"]!["Error"]!));
                continue;
            }

            var answers = item!["get"]!["responses"]!;
            var (type, content) = answers["200"]!["content"]!.AsObject().Single();
            var parameters = item["get"]!["parameters"]?.AsArray() ?? [];
            var needed = string.Join('&', parameters.Where(one => (bool?)one!["required"] == true).Select(one => $"{one!["name"]}={one["example"]}"));
            using var answer = await Client.GetAsync($"{path}?{needed}", HttpCompletionOption.ResponseHeadersRead);
            Assert.Equal((path, HttpStatusCode.OK, type), (path, answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
            if (type == "application/json")
            {
                Assert.Empty(schema.Faults(await answer.Content.ReadFromJsonAsync<JsonNode>(), content!["schema"]!));
            }

            foreach (var parameter in parameters)
            {
                var required = (bool?)parameter!["required"] == true;
                using var wrong = await Client.GetAsync(required ? path : $"{path}?{needed}{(needed.Length > 0 ? "&" : "")}{parameter["name"]}=rubbish");
                Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
                Assert.NotNull(answers["400"]);
                var said = await wrong.Content.ReadFromJsonAsync<JsonNode>();
                Assert.Empty(schema.Faults(said, document["components"]!["schemas"]!["Error"]!));
                Assert.Contains($"`{parameter["name"]}` is {(required ? "missing" : "rubbish")}", (string)said!["error"]!, StringComparison.Ordinal);
            }
        }

        // The walk would see a fault: a document without a key, and one with a key too many, are not let through.
        var status = await Status(_ => true);
        status.AsObject().Remove("age_s");
        status["more"] = 1;
        Assert.Equal(2, schema.Faults(status, document["components"]!["schemas"]!["Status"]!).Count());
    }

    [Fact]
    public async Task The_trend_is_the_store_s_own_windows_thinned_to_smallest_and_largest()
    {
        JsonNode trend = new JsonObject();
        for (var i = 0; i < 60 && (trend["columns"]?.AsArray().Count ?? 0) < 2; i++)
        {
            await Task.Delay(250);
            var now = DateTimeOffset.UtcNow;
            trend = (await Client.GetFromJsonAsync<JsonNode>(FormattableString.Invariant($"api/v1/trend?from={now.AddSeconds(-60):yyyy-MM-ddTHH:mm:ssZ}&to={now.AddSeconds(1):yyyy-MM-ddTHH:mm:ssZ}&points=60")))!;
        }

        var columns = trend["columns"]!.AsArray();
        var from = DateTimeOffset.Parse((string)trend["from_utc"]!, CultureInfo.InvariantCulture);
        var windows = Database.Windows(Path.Combine(served.Folder, "demo", "demo.db"));
        foreach (var column in columns.SkipLast(1))
        {
            var begin = from.AddSeconds((double)column!["start_s"]!);
            double[] within = [.. windows.Where(w => w.Utc >= begin && w.Utc < begin.AddSeconds((double)trend["column_s"]!) && w.Reading.StrokeMetres is not null && w.Verdict <= Assessment.Verdicts.Verdict.OverStroke)
                .Select(w => 1e3 * w.Reading.StrokeMetres!.Value)];
            Assert.Equal((long)column["windows"]!, within.Length);
            Assert.Equal(within.Min(), (double)column["least_mm"]!, 1e-6);
            Assert.Equal(within.Max(), (double)column["most_mm"]!, 1e-6);
        }
    }

    [Fact]
    public async Task The_metrics_are_openmetrics_text_and_say_what_the_status_says()
    {
        var status = await Status(one => one["stroke"]!["pp_mm"] is not null);
        using var answer = await Client.GetAsync("metrics");
        Assert.Equal("application/openmetrics-text; version=1.0.0; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        var metrics = new OpenMetrics(await answer.Content.ReadAsStringAsync());
        Assert.Equal(0.00165, metrics.Value("strokewatch_band_low_meters"), 9);
        Assert.Equal((double)status["stroke"]!["pp_mm"]! / 1e3, metrics.Value("strokewatch_stroke_meters"), 2e-5);
        Assert.True(metrics.Value("strokewatch_windows_total") >= (double)status["windows"]!);
        Assert.Equal(1, metrics.Value("strokewatch_running"));
        Assert.InRange(metrics.Value("strokewatch_reading_age_seconds"), 0, 1.5);
    }

    /// <summary>Read by the strict parser that comes with the reference client library for OpenMetrics; what breaks a rule it must refuse.</summary>
    [SkippableFact]
    public async Task The_reference_parser_reads_the_metrics()
    {
        await Status(one => one["stroke"]!["pp_mm"] is not null);
        var text = await Client.GetStringAsync("metrics");
        // Debian's own, which sees Debian's packages.
        const string Python = "/usr/bin/python3";
        const string Parse = "import sys\nfrom prometheus_client.openmetrics.parser import text_string_to_metric_families as read\nprint(sum(len(family.samples) for family in read(open(sys.argv[1]).read())))";
        Packaging.Tool.Need(Python);
        Skip.IfNot(Packaging.Tool.Run(Python, "-c", "import prometheus_client.openmetrics.parser").Status == 0, "the parser is not installed (apt-get install python3-prometheus-client)");
        var file = Path.Combine(served.Folder, "metrics.txt");
        await File.WriteAllTextAsync(file, text);
        Assert.True(int.Parse(Packaging.Tool.Say(Python, "-c", Parse, file), CultureInfo.InvariantCulture) > 20);
        await File.WriteAllTextAsync(file, text.Replace("# UNIT strokewatch_stroke_meters meters", "# UNIT strokewatch_stroke_meters miles", StringComparison.Ordinal));
        Assert.NotEqual(0, Packaging.Tool.Run(Python, "-c", Parse, file).Status);
    }

    [Fact]
    public async Task Every_answer_forbids_what_a_page_of_its_own_does_not_need()
    {
        foreach (var path in (string[])["", "page.js", "page.css", "words.json", "api/v1/status", "metrics", "nothing"])
        {
            using var answer = await Client.GetAsync(path);
            string Header(string name) => string.Join(",", answer.Headers.GetValues(name));
            var policy = Header("Content-Security-Policy").Split("; ");
            Assert.Contains("default-src 'none'", policy);
            Assert.Contains("frame-ancestors 'none'", policy);
            Assert.DoesNotContain("unsafe", Header("Content-Security-Policy"), StringComparison.Ordinal);
            Assert.Equal(("nosniff", "no-store", "no-referrer", "same-origin"), (Header("X-Content-Type-Options"), Header("Cache-Control"), Header("Referrer-Policy"), Header("Cross-Origin-Resource-Policy")));
            Assert.False(answer.Headers.Contains("Server"));
        }
    }

    [Theory]
    [InlineData("GET /../../etc/passwd HTTP/1.1", 404)]
    [InlineData("GET /%2e%2e/%2e%2e/etc/passwd HTTP/1.1", 404)]
    [InlineData("GET /..%2f..%2fetc%2fpasswd HTTP/1.1", 404)]
    [InlineData("GET //etc/passwd HTTP/1.1", 404)]
    [InlineData("GET /page.css%00.html HTTP/1.1", 400)]
    [InlineData("POST /api/v1/status HTTP/1.1\r\nContent-Length: 0", 405)]
    [InlineData("POST /api/v1/status HTTP/1.1\r\nContent-Length: 5000000", 413)]
    [InlineData("GET /api/v1/status HTTP/1.1\r\nContent-Length: 9", 413)]
    [InlineData("GET /api/v1/status HTTP/1.1\r\nOrigin: http://elsewhere.example", 403)]
    [InlineData("GET /api/v1/status HTTP/1.1\r\nSec-Fetch-Site: cross-site", 403)]
    [InlineData("GET /api/v1/trend?from=2026-03-04T00:00:00Z&to=2026-03-03T00:00:00Z HTTP/1.1", 400)]
    [InlineData("GET /api/v1/trend?points=0 HTTP/1.1", 400)]
    [InlineData("GET /api/v1/trend?point=9 HTTP/1.1", 400)]
    public async Task What_leads_out_or_asks_wrongly_is_refused(string request, int status) => Assert.Equal(status, await Ask($"{request}\r\nHost: localhost\r\n\r\n"));

    [Fact]
    public async Task Another_site_s_name_for_this_machine_is_not_answered_and_headers_and_lines_have_an_end()
    {
        Assert.Equal(421, await Ask("GET /api/v1/status HTTP/1.1\r\nHost: feeder.elsewhere.example\r\n\r\n"));
        Assert.Equal(431, await Ask($"GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: {new string('a', 20_000)}\r\n\r\n"));
        Assert.Equal(414, await Ask($"GET /{new string('a', 4_000)} HTTP/1.1\r\nHost: localhost\r\n\r\n"));
        Assert.Equal(200, await Ask("GET /api/v1/status HTTP/1.1\r\nHost: localhost\r\n\r\n"));
    }

    private async Task<JsonNode> Status(Func<JsonNode, bool> good)
    {
        for (var i = 0; i < 80; i++)
        {
            if (await Client.GetFromJsonAsync<JsonNode>("api/v1/status") is { } status && good(status))
            {
                return status;
            }

            await Task.Delay(250);
        }

        Assert.Fail("the status never became so");
        return null!;
    }

    /// <summary>Sends bytes as they are, which a client of good manners would not.</summary>
    private async Task<int> Ask(string request)
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync(Client.BaseAddress!.Host, Client.BaseAddress.Port);
        await socket.GetStream().WriteAsync(Encoding.ASCII.GetBytes(request));
        using var reader = new StreamReader(socket.GetStream(), Encoding.ASCII);
        var line = await reader.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(10));
        return int.Parse(line!.Split(' ')[1], CultureInfo.InvariantCulture);
    }

    /// <summary>One demonstration for all of these.</summary>
    public sealed class Served : IAsyncLifetime
    {
        private PageRun? run;

        internal HttpClient Client { get; } = new();

        internal string Folder => run!.Folder.Path;

        public async Task InitializeAsync()
        {
            run = await PageRun.Start();
            Client.BaseAddress = new Uri(run.Address);
        }

        public Task DisposeAsync()
        {
            Client.Dispose();
            run?.Dispose();
            return Task.CompletedTask;
        }
    }
}
