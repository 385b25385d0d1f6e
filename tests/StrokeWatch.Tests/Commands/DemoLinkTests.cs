using StrokeWatch.Commands;
using StrokeWatch.Sensors.Serial;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>The wire of the demonstration where the system gives no pseudo-terminal.</summary>
public sealed class DemoLinkTests
{
    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_goes_in_at_the_sensor_s_end_comes_out_at_the_daemon_s(bool refused)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        using var link = refused ? DemoLink.Create(() => throw new IOException("pseudo-terminal: none")) : DemoLink.Create();
        Assert.Equal(refused, link.Sink is MemoryLink);
        using var port = link.Opener.Open().Source!;
        Assert.Equal(5, link.Sink.Write("hello"u8));
        var heard = new byte[16];
        var count = 0;
        for (var tries = 0; count < 5 && tries < 50; tries++)
        {
            Assert.NotEqual(ReadStatus.Closed, port.Read(heard.AsSpan(count), out var more));
            count += more;
        }

        Assert.Equal("hello"u8.ToArray(), heard[..count]);
    }
}
