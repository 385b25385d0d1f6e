using System.Device.Spi;
using Iot.Device.Adc;

namespace StrokeWatch.Sensors.Converters;

/// <summary>MCP3208 (12 bits, 8 channels) and MCP3008 (10 bits) on SPI, by the binding of Iot.Device.Bindings: each read is a conversion of that instant.</summary>
/// <remarks>
/// The binding sends three bytes (start bit, 1 for a single-ended input, three bits of the channel), throws where the null bit before the code is not 0, for an open line reads as ones, and allocates nothing. Held against
/// data sheets by the emulator of the tests: MCP3204/3208, section 6.1 and figure 6-1, MCP3004/3008, section 6.1 (both from memory).
/// </remarks>
internal sealed class Mcp3208Driver(SpiDevice device, ConverterSettings settings, IDisposable? held = null) : IConverterDriver
{
    private readonly Mcp3xxx binding = settings.Model.Bits == 12 ? new Mcp3208(device) : new Mcp3008(device);
    private readonly int codes = 1 << settings.Model.Bits;

    /// <inheritdoc/>
    public string? Start()
    {
        try
        {
            _ = binding.Read(settings.Channel);
            return null;
        }
        catch (InvalidOperationException)
        {
            return "the converter does not answer (its null bit is not there): check supply, wiring, and that `device` names its chip select";
        }
    }

    /// <inheritdoc/>
    public double? Read()
    {
        try
        {
            var code = binding.Read(settings.Channel);
            return code == 0 || code == codes - 1 ? null : (code + 0.5) * settings.RangeVolts / codes;
        }
        catch (InvalidOperationException)
        {
            throw ConverterDevices.Fault("the converter no longer answers (its null bit is not there): check supply and wiring");
        }
    }

    /// <inheritdoc/>
    /// <remarks>It has no settings that it could lose.</remarks>
    public string? Doubt() => null;

    /// <inheritdoc/>
    public void Dispose()
    {
        binding.Dispose();
        held?.Dispose();
    }
}
