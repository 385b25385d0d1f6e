using System.Buffers.Binary;
using System.Device.I2c;
using System.Device.Spi;

namespace StrokeWatch.Tests.Sensors.Converters;

/// <summary>An MCP3208 or MCP3008 at the level of its wires, written from figure 6-1 of its data sheet (from memory): it looks for the start bit wherever it comes and answers from there.</summary>
internal sealed class EmulatedMcp(int bits, Func<int, double> share) : SpiDevice
{
    public bool Dead { get; set; }

    public override SpiConnectionSettings ConnectionSettings { get; } = new(0, 1);

    public override void Read(Span<byte> buffer) => throw new NotSupportedException();

    public override void Write(ReadOnlySpan<byte> buffer) => throw new NotSupportedException();

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        // Bit by bit: start, single, three bits of the channel, one clock to sample, a null bit, then the code.
        var (seen, word, clocks) = (-1, 0, 8 * writeBuffer.Length);
        readBuffer.Fill(0xFF);
        for (var clock = 0; clock < clocks; clock++)
        {
            var sent = writeBuffer[clock / 8] >> (7 - clock % 8) & 1;
            seen = seen < 0 ? (sent == 1 ? 0 : -1) : seen + 1;
            if (seen is >= 1 and <= 4)
            {
                word = (word << 1) | sent;
            }

            if (seen < 6 || Dead)
            {
                continue;
            }

            Xunit.Assert.Equal(1, word >> 3);
            var code = (int)Math.Clamp(Math.Floor(share(word & 7) * (1 << bits)), 0, (1 << bits) - 1);
            var bit = seen == 6 ? 0 : seen - 7 < bits ? code >> (bits - 1 - (seen - 7)) & 1 : 1;
            readBuffer[clock / 8] = (byte)(readBuffer[clock / 8] & ~(1 << (7 - clock % 8)) | bit << (7 - clock % 8));
        }
    }
}

/// <summary>An ADS1115 at the level of its registers, written from section 8.6 of its data sheet (from memory).</summary>
internal sealed class EmulatedAds(Func<int, double> volts) : I2cDevice
{
    private static readonly double[] Ranges = [6.144, 4.096, 2.048, 1.024, 0.512, 0.256, 0.256, 0.256];
    private ushort configuration = 0x8583;

    public bool Gone { get; set; }

    public bool Forgets { get; set; }

    public override I2cConnectionSettings ConnectionSettings { get; } = new(1, 0x48);

    public override void Read(Span<byte> buffer) => throw new NotSupportedException();

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        Answer();
        Xunit.Assert.Equal((1, 3), (buffer[0], buffer.Length));
        configuration = Forgets ? configuration : BinaryPrimitives.ReadUInt16BigEndian(buffer[1..]);
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Answer();
        Xunit.Assert.Equal((1, 2), (writeBuffer.Length, readBuffer.Length));
        BinaryPrimitives.WriteUInt16BigEndian(readBuffer, writeBuffer[0] == 1 ? (ushort)(configuration | 0x8000) : (ushort)Code());
    }

    private short Code()
    {
        Xunit.Assert.Equal((0, 7), (configuration >> 8 & 1, configuration >> 5 & 7));
        var input = configuration >> 12 & 7;
        Xunit.Assert.InRange(input, 4, 7);
        return (short)Math.Clamp(Math.Round(volts(input - 4) / Ranges[configuration >> 9 & 7] * 32768), short.MinValue, short.MaxValue);
    }

    private void Answer()
    {
        if (Gone)
        {
            throw new IOException("Error 121 performing I2C data transfer.");
        }
    }
}
