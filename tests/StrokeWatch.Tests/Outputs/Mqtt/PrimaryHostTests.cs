using System.Text;
using StrokeWatch.Outputs.Mqtt;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Mqtt;

/// <summary>What a host application says of itself. Clauses are those of the Eclipse Sparkplug specification 3.0, by their ids.</summary>
public sealed class PrimaryHostTests
{
    private readonly PrimaryHost host = new("spBv1.0/STATE/control-room", TimeProvider.System);
    private int changes;

    [Fact]
    public void It_is_online_from_its_birth_to_its_death_and_what_is_older_counts_for_nothing()
    {
        // tck-id-host-topic-phid-birth-payload, tck-id-operational-behavior-edge-node-termination-host-offline-timestamp.
        Assert.Throws<HostOfflineException>(host.Demand);
        Hear("""{"online":true,"timestamp":1000}""", online: true, 1);
        host.Demand();
        Hear("""{"online":false,"timestamp":999}""", online: true, 1);
        Hear("""{"online":false,"timestamp":1000}""", online: false, 2);
        Hear("""{"timestamp":2000,"online":true,"more":{}}""", online: true, 3);
    }

    [Theory]
    [InlineData("ONLINE")]
    [InlineData("")]
    [InlineData("[true]")]
    [InlineData("""{"online":true}""")]
    [InlineData("""{"online":"true","timestamp":1}""")]
    [InlineData("""{"online":true,"timestamp":-1}""")]
    [InlineData("""{"online":true,"timestamp":1.5}""")]
    [InlineData("""{"online":true,"timestamp":1""")]
    public void What_is_no_such_message_counts_for_nothing(string payload) => Hear(payload, online: false, 0);

    [Fact]
    public void Rubbish_is_never_a_host_that_is_there()
    {
        var random = new Random(11);
        for (var i = 0; i < 20_000; i++)
        {
            var rubbish = new byte[random.Next(0, 60)];
            random.NextBytes(rubbish);
            host.Hear(rubbish, () => changes++);
        }

        Assert.Equal((false, 0), (host.Online, changes));
    }

    private void Hear(string payload, bool online, int heard)
    {
        host.Hear(Encoding.UTF8.GetBytes(payload), () => changes++);
        Assert.Equal((online, heard), (host.Online, changes));
    }
}
