using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Sensors.Converters;

/// <summary>What an analogue-to-digital converter is.</summary>
/// <param name="Kind">Its name in the configuration.</param>
/// <param name="Name">Its name for people.</param>
/// <param name="Bus">Its bus.</param>
/// <param name="Bits">The bits of a code.</param>
/// <param name="Channels">Its inputs.</param>
/// <param name="MostBusHz">The fastest clock of its bus at 3.3 V.</param>
/// <param name="MostHz">The most conversions a second that it makes at that.</param>
/// <param name="ReadBits">What a read takes on the bus, in clock periods.</param>
public sealed record ConverterModel(string Kind, string Name, ChipBus Bus, int Bits, int Channels, int MostBusHz, double MostHz, int ReadBits)
{
    /// <summary>Gets those that are known.</summary>
    /// <remarks>
    /// MCP3208: 1 MHz and 50 000 a second at 2.7 V; MCP3008: 1.35 MHz and 75 000; ADS1115: fast mode 400 kHz, 860 a second at most, a read of five bytes of nine bits with three marks (data sheets, from memory).
    /// </remarks>
    public static IReadOnlyList<ConverterModel> All { get; } =
    [
        new("mcp3208", "MCP3208", ChipBus.Spi, 12, 8, 1_000_000, 50_000, 24),
        new("mcp3008", "MCP3008", ChipBus.Spi, 10, 8, 1_350_000, 75_000, 24),
        new("ads1115", "ADS1115", ChipBus.I2c, 16, 4, 400_000, 860, 48),
    ];

    /// <summary>Finds a converter by its kind; null where there is none of that name.</summary>
    public static ConverterModel? Find(string? kind) => All.FirstOrDefault(model => model.Kind == kind);
}
