using StrokeWatch.Sensors.Serial;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Serial;

public sealed class MemoryLinkTests
{
    [Fact]
    public void Bytes_pass_in_order_round_the_end_of_the_ring()
    {
        var link = new MemoryLink(100);
        var random = new Random(4);
        var buffer = new byte[64];
        byte sent = 0, heard = 0;
        for (var i = 0; i < 1000; i++)
        {
            var bytes = Enumerable.Range(0, random.Next(70)).Select(j => (byte)(sent + j)).ToArray();
            sent += (byte)link.Write(bytes);
            if (random.Next(2) == 0 && link.Read(buffer.AsSpan(0, random.Next(1, 64)), out var count) == ReadStatus.Data)
            {
                for (var j = 0; j < count; j++)
                {
                    Assert.Equal(heard++, buffer[j]);
                }
            }
        }
    }

    [Fact]
    public void A_pulled_plug_is_closed_and_takes_nothing()
    {
        var link = new MemoryLink();
        _ = link.Write([1]);
        link.Unplug();
        Assert.Equal(0, link.Write([1]));
        Assert.Equal(ReadStatus.Closed, link.Read(new byte[4], out _));
        Assert.Equal(OpenFault.Missing, link.Open().Fault);
        link.Plug();
        Assert.Equal(OpenFault.None, link.Open().Fault);
        Assert.Equal(ReadStatus.Nothing, link.Read(new byte[4], out _));
    }
}
