using System.Device.Spi;
using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>An emulated chip on SPI. Like spidev it refuses transfers of more than 4096 bytes.</summary>
internal sealed class EmulatedSpi(Func<EmulatedChip> plugged, ChipModel model) : SpiDevice
{
    public override SpiConnectionSettings ConnectionSettings { get; } = new(0, 0);

    public int Longest { get; private set; }

    public override void Read(Span<byte> buffer) => throw new NotSupportedException();

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        var (register, read) = Command(buffer[0], buffer.Length - 1);
        Assert(!read && buffer.Length > 1);
        plugged().Write(register, buffer[1..]);
    }

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Longest = Math.Max(Longest, writeBuffer.Length);
        if (writeBuffer.Length > 4096)
        {
            throw new IOException("Error 90 performing SPI data transfer.");
        }

        var (register, read) = Command(writeBuffer[0], writeBuffer.Length - 1);
        Assert(read && readBuffer.Length == writeBuffer.Length);
        readBuffer[0] = 0xEE;
        plugged().Read(register, readBuffer[1..]);
    }

    private static void Assert(bool holds) => Xunit.Assert.True(holds, "a transfer that the chip would not understand");

    private (byte Register, bool Read) Command(byte command, int data)
    {
        if (model.Kind == "adxl357")
        {
            return ((byte)(command >> 1), (command & 1) != 0);
        }

        if (model.Kind == "adxl345")
        {
            Assert((command & 0x40) != 0 == data > 1);
            return ((byte)(command & 0x3F), (command & 0x80) != 0);
        }

        return ((byte)(command & 0x7F), (command & 0x80) != 0);
    }
}
