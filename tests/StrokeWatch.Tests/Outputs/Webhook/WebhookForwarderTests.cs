using System.Security.Cryptography;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Tests.Outputs.Forwarding;
using StrokeWatch.Tests.Outputs.Influx;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Webhook;

public sealed class WebhookForwarderTests : IDisposable
{
    private const string Secret = "glass-works_7";
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-webhook-").FullName;
    private readonly FakeTimeProvider clock = new(Noon);
    private readonly FilledStore store;
    private readonly List<(bool Trouble, string Words)> told = [];
    private readonly List<string> ids = [];
    private WebhookForwarder? forwarder;
    private int steps;

    public WebhookForwarderTests() => store = new(Path.Combine(folder, "store.db"));

    public void Dispose()
    {
        forwarder?.Dispose();
        store.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_step_is_posted_as_json_under_its_id_and_signed_over_time_and_body()
    {
        using var receiver = new FakeReceiver();
        Forward(receiver.Url);
        store.Step(new(
            new(AlarmKind.SensorLost, SensorPlace.Front), AlarmAct.Shelve, AlarmState.Unacknowledged, AlarmState.Shelved, AlarmState.Unacknowledged, Noon.AddMilliseconds(250), "Müller \"Ö\"",
            "cable on order", Noon.AddHours(2)));
        Assert.Equal(TimeSpan.Zero, await forwarder!.Step(default));
        var message = Assert.Single(receiver.Heard);
        Assert.Equal("POST /alarms?plant=3 HTTP/1.1", message.Line);
        Assert.Equal(("application/json; charset=utf-8", $"{Noon.ToUnixTimeMilliseconds() + 250}-1"), (message.Type, message.Id));
        Assert.Equal(Noon.ToUnixTimeSeconds().ToString(), message.Time);
        var json = message.Json;
        string? Text(string key) => json.GetProperty(key).GetString();
        Assert.Equal(
            (message.Id, "Sand feeder", "2026-03-29T12:00:00.250Z", "sensor-lost/front", "sensor-lost", "front", "medium"),
            (Text("id"), Text("feeder"), Text("utc"), Text("alarm"), Text("kind"), Text("place"), Text("priority")));
        Assert.Equal(
            ("shelve", "unacknowledged", "shelved", "unacknowledged", "Müller \"Ö\"", "cable on order", "2026-03-29T14:00:00.000Z"),
            (Text("act"), Text("from"), Text("to"), Text("beneath"), Text("by"), Text("words"), Text("until_utc")));

        // RFC 2104 by the framework's one-shot function, over what came over the wire.
        var expected = HMACSHA256.HashData(Encoding.UTF8.GetBytes(Secret), (byte[])[.. Encoding.ASCII.GetBytes(message.Time + "."), .. message.Body]);
        Assert.Equal("sha256=" + Convert.ToHexString(expected).ToLowerInvariant(), message.Signature);
        Assert.Equal((1L, 0L, Noon), (forwarder.Health.Sent, forwarder.Health.Held, forwarder.Health.LastSuccess));
        Assert.Empty(told);
    }

    [Fact]
    public async Task Down_slow_failing_and_killed_in_the_middle_of_an_answer_each_step_arrives_once_by_id_and_in_order()
    {
        var port = FakeInflux.FreePort();
        Forward(new($"http://127.0.0.1:{port}/alarms?plant=3"), options => options with { Patience = TimeSpan.FromSeconds(1) });
        Steps(20);
        Assert.InRange(await forwarder!.Step(default), TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(1));
        using var receiver = new FakeReceiver(port)
        {
            Answer = number => number switch
            {
                3 => (500, "", default, false),
                5 => (204, "", default, true),
                6 => (204, "", TimeSpan.FromSeconds(1.5), false),
                9 => (503, "Retry-After: 120\r\n", default, false),
                11 => (429, $"Retry-After: {Noon.AddMinutes(30).UtcDateTime:r}\r\n", default, false),
                15 => (302, "Location: http://127.0.0.1:1/\r\n", default, false),
                _ => (200, "", default, false),
            },
        };
        var waits = await Settle();
        Steps(5);
        waits.AddRange(await Settle());
        Assert.Equal(Enumerable.Range(1, 25).Select(Id), receiver.Ids);

        // Only what was not confirmed came again, and nothing overtook it.
        Assert.Equal(25 + 6, receiver.Heard.Count);
        Assert.All(receiver.Heard.GroupBy(message => message.Id), same => Assert.Single(same.Select(message => Encoding.UTF8.GetString(message.Body)).Distinct()));
        Assert.Contains(waits, wait => wait >= TimeSpan.FromSeconds(120) && wait <= TimeSpan.FromSeconds(132));
        Assert.Contains(waits, wait => wait > TimeSpan.FromMinutes(20) && wait < TimeSpan.FromMinutes(34));
        Assert.Equal((25L, 0L, 0L, (string?)null), (forwarder.Health.Sent, forwarder.Health.Held, forwarder.Health.Refused, forwarder.Health.Trouble));
        Assert.Contains(told, said => said.Trouble && said.Words.Contains("cannot be reached", StringComparison.Ordinal));
        Assert.Contains(told, said => said.Trouble && said.Words.Contains("status 302", StringComparison.Ordinal));
        Assert.False(told[^1].Trouble);
    }

    [Fact]
    public async Task A_restart_in_the_middle_goes_on_where_it_was()
    {
        using var receiver = new FakeReceiver { Answer = number => number == 7 ? (500, "", default, false) : (200, "", default, false) };
        Forward(receiver.Url);
        Steps(15);
        Assert.NotEqual(TimeSpan.Zero, await forwarder!.Step(default));
        clock.Advance(TimeSpan.FromHours(1));
        Forward(receiver.Url);
        await Settle();
        Assert.Equal(Enumerable.Range(1, 15).Select(Id), receiver.Ids);
        Assert.Equal(16, receiver.Heard.Count);
    }

    [Fact]
    public async Task Who_is_told_for_the_first_time_is_not_told_of_the_past_but_of_all_that_comes_even_through_a_kill_before_the_first_message()
    {
        Steps(3, Noon.AddDays(-400));
        using var receiver = new FakeReceiver { Answer = _ => (500, "", default, false) };
        Forward(receiver.Url);
        Steps(2);
        Assert.NotEqual(TimeSpan.Zero, await forwarder!.Step(default));
        clock.Advance(TimeSpan.FromHours(1));
        receiver.Answer = _ => (200, "", default, false);
        Forward(receiver.Url);
        await Settle();
        Assert.Equal([Id(4), Id(5)], receiver.Ids);
    }

    [Fact]
    public async Task A_denial_is_told_and_held_and_a_message_nobody_wants_is_set_aside_and_told()
    {
        using var receiver = new FakeReceiver { Answer = number => number == 0 ? (401, "", default, false) : number == 2 ? (400, "", default, false) : (200, "", default, false) };
        Forward(receiver.Url);
        Steps(3);
        Assert.InRange(await forwarder!.Step(default), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(6));
        Assert.Contains("status 401", forwarder.Health.Trouble, StringComparison.Ordinal);
        Assert.Equal(3, forwarder.Health.Held);
        await Settle();
        Assert.Equal([Id(1), Id(2), Id(3)], receiver.Ids);
        Assert.Equal((2L, 1L, 0L), (forwarder.Health.Sent, forwarder.Health.Refused, forwarder.Health.Held));
        Assert.Contains(told, said => said.Trouble && said.Words.Contains("set aside in", StringComparison.Ordinal));
        Assert.DoesNotContain(told, said => said.Words.Contains(Secret, StringComparison.Ordinal));

        // Where everything is refused it is not the messages.
        receiver.Answer = _ => (422, "", default, false);
        Steps(40);
        Assert.InRange(await forwarder.Step(default), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(6));
        Assert.Equal((11L, 30L), (forwarder.Health.Refused, forwarder.Health.Held));
    }

    private string Id(int number) => ids[number - 1];

    private void Forward(Uri url, Func<WebhookOptions, WebhookOptions>? change = null)
    {
        forwarder?.Dispose();
        var path = Path.Combine(folder, "secret");
        File.WriteAllText(path, Secret + "\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        var options = new WebhookOptions { Url = url, SecretPath = path };
        forwarder = new(change is null ? options : change(options), Path.Combine(folder, "store.db"), "Sand feeder", clock, (trouble, words) => told.Add((trouble, words)));
    }

    private void Steps(int count, DateTimeOffset? from = null)
    {
        for (var i = 0; i < count; i++)
        {
            var at = (from ?? clock.GetUtcNow()).AddSeconds(i);
            var raised = steps++ % 2 == 0;
            store.Step(new(
                new(AlarmKind.HighStroke), raised ? AlarmAct.Activate : AlarmAct.Clear, raised ? AlarmState.Normal : AlarmState.Unacknowledged, raised ? AlarmState.Unacknowledged : AlarmState.Normal,
                raised ? AlarmState.Unacknowledged : AlarmState.Normal, at, "measurement", "Stroke high.", null));
            ids.Add($"{at.ToUnixTimeMilliseconds()}-{steps}");
        }
    }

    /// <summary>Steps until nothing waits; the clock is moved past each wait.</summary>
    private async Task<List<TimeSpan>> Settle()
    {
        var waits = new List<TimeSpan>();
        for (var i = 0; i < 50; i++)
        {
            var wait = await forwarder!.Step(default);
            if (wait == TimeSpan.Zero)
            {
                return waits;
            }

            waits.Add(wait);
            clock.Advance(wait + TimeSpan.FromMilliseconds(1));
        }

        throw new InvalidOperationException($"50 steps and no end: {forwarder!.Health}");
    }
}
