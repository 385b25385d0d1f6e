using System.Device.I2c;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>An emulated chip on an I2C bus. What is plugged in can be exchanged while the bus is open.</summary>
internal sealed class EmulatedI2c(Func<EmulatedChip> plugged) : I2cDevice
{
    private byte pointer;

    public override I2cConnectionSettings ConnectionSettings { get; } = new(1, 0x1D);

    public override void Read(Span<byte> buffer) => plugged().Read(pointer, buffer);

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        pointer = buffer[0];
        if (buffer.Length > 1)
        {
            plugged().Write(pointer, buffer[1..]);
        }
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Write(writeBuffer);
        Read(readBuffer);
    }
}
