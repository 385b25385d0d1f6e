using System.Net.Sockets;
using System.Text;
using StrokeWatch.Pipeline;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

public sealed class SystemdNotifierTests
{
    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void Datagrams_reach_the_socket_by_path_and_by_abstract_name(bool isAbstract)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "Only Linux has systemd and abstract sockets.");
        var folder = Directory.CreateTempSubdirectory("strokewatch-notify-").FullName;
        var path = Path.Combine(folder, "notify");
        try
        {
            using var systemd = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified) { ReceiveTimeout = 10_000 };
            systemd.Bind(new UnixDomainSocketEndPoint(isAbstract ? "\0" + path : path));
            using var notifier = new SystemdNotifier(isAbstract ? "@" + path : path, TimeSpan.FromSeconds(30));
            Assert.Equal(TimeSpan.FromSeconds(15), notifier.WatchdogPeriod);
            Assert.True(notifier.Ready("stroke\n1.62 mm"));
            Assert.True(notifier.Watchdog());
            Assert.True(notifier.Status("sensor lost"));
            Assert.True(notifier.Stopping());
            Assert.Equal(["READY=1\nSTATUS=stroke 1.62 mm", "WATCHDOG=1", "STATUS=sensor lost", "STOPPING=1"], Enumerable.Range(0, 4).Select(_ => Receive(systemd)));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("notify")]
    [InlineData("/nowhere/at/all/notify")]
    public void Without_a_socket_nothing_is_sent_and_nothing_fails(string? name)
    {
        using var notifier = new SystemdNotifier(name);
        Assert.Null(notifier.WatchdogPeriod);
        Assert.False(notifier.Ready("running"));
        Assert.False(notifier.Watchdog());
        Assert.False(notifier.Stopping());
    }

    [Fact]
    public void A_name_longer_than_an_address_can_hold_does_nothing_either()
    {
        using var notifier = new SystemdNotifier("/" + new string('x', 300));
        Assert.False(notifier.Ready("running"));
    }

    private static string Receive(Socket socket)
    {
        var buffer = new byte[512];
        return Encoding.UTF8.GetString(buffer, 0, socket.Receive(buffer));
    }
}
