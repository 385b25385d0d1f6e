using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Page;

/// <summary>Captures over the page's API: listed, looked at, replayed, downloaded, and nothing beside them reached.</summary>
[Collection(RealTime.Name)]
public sealed class CaptureHttpTests(HttpTests.Served served) : IClassFixture<HttpTests.Served>
{
    private HttpClient Client => served.Client;

    private string Folder => Path.Combine(served.Folder, "demo");

    [Fact]
    public async Task A_capture_is_listed_looked_at_downloaded_and_replayed_as_the_command_does()
    {
        File.Copy(Repository.Capture("high"), Path.Combine(Folder, "high one.wav"), overwrite: true);
        File.Copy(Repository.Feeder("high"), Path.Combine(Folder, "high one.feeder.toml"), overwrite: true);
        var all = (await Client.GetFromJsonAsync<JsonNode>("api/v1/captures"))!["captures"]!.AsArray();
        Assert.Contains(all, one => (string)one!["name"]! == "high one.wav" && (long)one["size_bytes"]! == new FileInfo(Repository.Capture("high")).Length);
        Assert.Contains(all, one => (string)one!["name"]! == "demo.wav");

        var whole = await Client.GetByteArrayAsync("api/v1/captures/file?name=high%20one.wav");
        Assert.Equal(await File.ReadAllBytesAsync(Repository.Capture("high")), whole);

        var look = (await Client.GetFromJsonAsync<JsonNode>("api/v1/captures/look?name=high%20one.wav&points=100"))!;
        Assert.InRange(look["axes"]![0]!["least_m_s2"]!.AsArray().Count, 100, 200);

        var replayed = await Client.GetByteArrayAsync("api/v1/captures/replay?name=high%20one.wav");
        using var command = Running.Start(Folder, "replay", "high one.wav", "--feeder", "high one.feeder.toml", "--json", "by-command.json");
        _ = await command.Until(() => command.Ended ? "" : null, "end of the replay");
        Assert.Equal(await File.ReadAllTextAsync(Path.Combine(Folder, "by-command.json")), Encoding.UTF8.GetString(replayed));
        Assert.Equal("high", (string)JsonNode.Parse(replayed)!["stroke"]!["verdict"]!);
    }

    [Fact]
    public async Task A_capture_that_cannot_be_read_is_told_in_one_line_without_the_place_it_lies_at()
    {
        await File.WriteAllTextAsync(Path.Combine(Folder, "broken.csv"), "nothing here is a number\n");
        using var answer = await Client.GetAsync("api/v1/captures/replay?name=broken.csv");
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        var said = (string)(await answer.Content.ReadFromJsonAsync<JsonNode>())!["error"]!;
        Assert.StartsWith("broken.csv", said, StringComparison.Ordinal);
        Assert.DoesNotContain(served.Folder, said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("name=..%2f..%2fetc%2fpasswd", 404)]
    [InlineData("name=../../etc/passwd", 404)]
    [InlineData("name=%2e%2e%2fdemo%2fdemo.wav", 404)]
    [InlineData("name=%252e%252e%252fdemo.wav", 404)]
    [InlineData("name=/etc/passwd", 404)]
    [InlineData("name=./demo.wav", 404)]
    [InlineData("name=demo.wav%00", 404)]
    [InlineData("name=%00", 404)]
    [InlineData("name=demo.db", 404)]
    [InlineData("name=cullet.feeder.toml", 404)]
    [InlineData("name=link.wav", 404)]
    [InlineData("name=demo.wav&name=../demo.db", 404)]
    [InlineData("name=", 400)]
    [InlineData("", 400)]
    [InlineData("path=demo.wav", 400)]
    public async Task No_name_leads_out_of_the_folder(string query, int status)
    {
        if (!Path.Exists(Path.Combine(Folder, "link.wav")))
        {
            File.CreateSymbolicLink(Path.Combine(Folder, "link.wav"), Repository.Capture("high"));
        }

        foreach (var what in (string[])["file", "look", "replay"])
        {
            using var socket = new TcpClient();
            await socket.ConnectAsync(Client.BaseAddress!.Host, Client.BaseAddress.Port);
            await socket.GetStream().WriteAsync(Encoding.ASCII.GetBytes($"GET /api/v1/captures/{what}?{query} HTTP/1.1\r\nHost: localhost\r\n\r\n"));
            using var reader = new StreamReader(socket.GetStream(), Encoding.ASCII);
            Assert.Equal(status, int.Parse((await reader.ReadLineAsync())!.Split(' ')[1], CultureInfo.InvariantCulture));
        }
    }
}
