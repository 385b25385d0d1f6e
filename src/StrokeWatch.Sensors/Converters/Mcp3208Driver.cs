using System.Device.Spi;

namespace StrokeWatch.Sensors.Converters;

/// <summary>MCP3208 (12 bits, 8 channels) and MCP3008 (10 bits) on SPI: each read is a conversion of that instant.</summary>
/// <remarks>
/// Data sheet of the MCP3204/3208, section 6.1 and figure 6-1, and of the MCP3004/3008, section 6.1 (both from memory): three bytes; a start bit, 1 for a single-ended input, three bits of the
/// channel; a null bit and then the code, most significant bit first, which ends with the last bit of the three bytes.
/// </remarks>
internal sealed class Mcp3208Driver(SpiDevice device, ConverterSettings settings, IDisposable? held = null) : IConverterDriver
{
    private readonly byte[] received = new byte[3];

    private int Bits => settings.Model.Bits;

    /// <inheritdoc/>
    public string? Start() => Convert() is null ? "the converter does not answer (its null bit is not there): check supply, wiring, and that `device` names its chip select" : null;

    /// <inheritdoc/>
    public double? Read()
    {
        var code = Convert() ?? throw new IOException("the converter no longer answers");
        return code == 0 || code == (1 << Bits) - 1 ? null : (code + 0.5) * settings.RangeVolts / (1 << Bits);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        device.Dispose();
        held?.Dispose();
    }

    /// <summary>Converts; null where the null bit is not 0: an open line reads as ones.</summary>
    private int? Convert()
    {
        // The command ends so many bits before the end as null bit and code take, after one clock for the sample to settle.
        var command = (0x18 | settings.Channel) << (Bits + 2);
        Span<byte> sent = [(byte)(command >> 16), (byte)(command >> 8), (byte)command];
        device.TransferFullDuplex(sent, received);
        var word = (received[0] << 16) | (received[1] << 8) | received[2];
        return (word >> Bits & 1) != 0 ? null : word & ((1 << Bits) - 1);
    }
}
