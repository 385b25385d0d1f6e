using System.Device.Spi;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Registers on SPI: a command byte, then data, in one transfer; longer reads than the kernel's driver takes at a time are cut between samples.</summary>
internal sealed class SpiRegisters(SpiDevice device, SpiAddressing addressing, IDisposable? held = null) : IRegisters
{
    /// <summary>The most bytes of one transfer: the buffer of Linux's spidev where nothing else is set.</summary>
    public const int MostBytes = 4096;

    /// <summary>The most data of one transfer: whole samples of six as well as of nine bytes.</summary>
    public const int MostData = (MostBytes - 1) / 18 * 18;

    private readonly byte[] sent = new byte[MostBytes];
    private readonly byte[] received = new byte[MostBytes];

    /// <inheritdoc/>
    public void Read(byte register, Span<byte> into)
    {
        while (!into.IsEmpty)
        {
            var part = Math.Min(into.Length, MostData);
            sent[0] = Command(register, read: true, many: part > 1);
            device.TransferFullDuplex(sent.AsSpan(0, part + 1), received.AsSpan(0, part + 1));
            received.AsSpan(1, part).CopyTo(into);
            into = into[part..];
        }
    }

    /// <inheritdoc/>
    public void Write(byte register, byte value)
    {
        Span<byte> pair = [Command(register, read: false, many: false), value];
        device.Write(pair);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        device.Dispose();
        held?.Dispose();
    }

    private byte Command(byte register, bool read, bool many) => addressing switch
    {
        SpiAddressing.ReadBitLast => (byte)((register << 1) | (read ? 1 : 0)),
        SpiAddressing.ReadBitFirst => (byte)(register | (read ? 0x80 : 0)),
        _ => (byte)(register | (read ? 0x80 : 0) | (many ? 0x40 : 0)),
    };
}
