using System.Device.I2c;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Registers on an I2C bus: write of the address, repeated start, read; one transaction, so that no other program slips in between.</summary>
internal sealed class I2cRegisters(I2cDevice device) : IRegisters
{
    /// <inheritdoc/>
    public void Read(byte register, Span<byte> into)
    {
        Span<byte> address = [register];
        device.WriteRead(address, into);
    }

    /// <inheritdoc/>
    public void Write(byte register, byte value)
    {
        Span<byte> pair = [register, value];
        device.Write(pair);
    }

    /// <inheritdoc/>
    public void Dispose() => device.Dispose();
}
