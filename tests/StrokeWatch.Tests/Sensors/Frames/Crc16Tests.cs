using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

public sealed class Crc16Tests
{
    // Check values of CRC-16/CCITT-FALSE: the catalogue of parametrised CRC algorithms, from memory.
    [Fact]
    public void The_check_value_is_the_published_one() => Assert.Equal(0x29B1, Crc16.Of("123456789"u8));

    [Fact]
    public void Nothing_gives_the_start_value() => Assert.Equal(0xFFFF, Crc16.Of([]));

    [Fact]
    public void Every_change_of_up_to_sixteen_bits_in_a_row_is_found()
    {
        var bytes = new byte[40];
        new Random(5).NextBytes(bytes);
        var right = Crc16.Of(bytes);
        for (var at = 0; at < bytes.Length - 1; at++)
        {
            for (var change = 1; change < 65536; change += 37)
            {
                bytes[at] ^= (byte)change;
                bytes[at + 1] ^= (byte)(change >> 8);
                Assert.NotEqual(right, Crc16.Of(bytes));
                bytes[at] ^= (byte)change;
                bytes[at + 1] ^= (byte)(change >> 8);
            }
        }
    }
}
