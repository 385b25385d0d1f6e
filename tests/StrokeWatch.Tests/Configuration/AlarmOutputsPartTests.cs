using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Webhook;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

/// <summary>The tables [relay] and [webhook].</summary>
public sealed class AlarmOutputsPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Every_value_is_taken_and_the_least_is_enough()
    {
        Secret();
        var full = Read("[relay]\nchip = 4\nline = 17\nactive_low = true\nheartbeat_s = 2.5\nalarms = [\"strike\"]\n[webhook]\nurl = \"https://server/alarms?plant=3\"\nsecret_file = \"secret\"\ntimeout_s = 3");
        Assert.Empty(full.Errors);
        var relay = full.Value!.Relay!;
        Assert.Equal((4, 17, true, TimeSpan.FromSeconds(2.5)), (relay.Chip, relay.Line, relay.ActiveLow, relay.Heartbeat));
        Assert.Equal([AlarmKind.Strike], relay.Alarms);
        Assert.Equal(new WebhookOptions { Url = new("https://server/alarms?plant=3"), SecretPath = folder.At("secret"), Patience = TimeSpan.FromSeconds(3) }, full.Value.Webhook);
        Assert.Equal(new RelayOptions { Chip = 0, Line = 3 }, Read("[relay]\nline = 3").Value!.Relay);
        Assert.Null(Read("").Value!.Relay);
        Assert.Null(Read("").Value!.Webhook);
    }

    [Fact]
    public void All_that_is_wrong_comes_at_once_with_its_line_and_never_the_secret()
    {
        var errors = Read("[relay]\nchip = -1\nheartbeat_s = 0.1\nalarms = [\"over\"]\npin = 3\n[webhook]\nurl = \"ftp://server\"\nsecret_file = \"none\"\nsecret = \"s3cret\"").Errors;
        Assert.Equal([7, 8, 9, 10, 11, 13, 14, 15], errors.Select(error => error.Line).Order());
        Assert.DoesNotContain(errors, error => error.Message.Contains("s3cret", StringComparison.Ordinal));
    }

    private void Secret()
    {
        folder.Write("secret", "s3cret\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(folder.At("secret"), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    private ConfigurationResult<WatchConfiguration> Read(string tables)
    {
        folder.Write("sand.toml", Examples.Least);
        return WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"frames\"\n[store]\npath = \"s.db\"\n{tables}"));
    }
}
