namespace StrokeWatch.Sensors.Chips;

/// <summary>What the data sheet says of a chip, as far as configuration, budget and driver need it.</summary>
public sealed record ChipModel
{
    /// <summary>Gets the name in configuration files: <c>adxl357</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>Gets the name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Gets the ranges, smallest first.</summary>
    public required IReadOnlyList<ChipRange> Ranges { get; init; }

    /// <summary>Gets the rates, slowest first.</summary>
    public required IReadOnlyList<ChipRate> Rates { get; init; }

    /// <summary>Gets how many samples of all three axes the chip's own store holds.</summary>
    public required int FifoSamples { get; init; }

    /// <summary>Gets the bytes of one sample of all three axes, as read from that store.</summary>
    public required int SampleBytes { get; init; }

    /// <summary>Gets whether each sample of the store is a transaction of its own.</summary>
    public bool OneSampleATransaction { get; init; }

    /// <summary>Gets the bytes of state that are read before each drain.</summary>
    public int StatusBytes { get; init; } = 2;

    /// <summary>Gets the addresses on an I2C bus, the usual one first.</summary>
    public required IReadOnlyList<int> Addresses { get; init; }

    /// <summary>Gets the fastest clock on SPI in Hz.</summary>
    public required int MostSpiHz { get; init; }

    /// <summary>Gets the clock on SPI in Hz where the configuration says nothing.</summary>
    public required int UsualSpiHz { get; init; }

    /// <summary>Gets the fastest clock on I2C in Hz.</summary>
    public int MostI2cHz { get; init; } = 400_000;

    /// <summary>Gets the noise density in µg/√Hz.</summary>
    public required double NoiseDensity { get; init; }

    /// <summary>Gets the part of the rate up to which its filter passes.</summary>
    public required double BandwidthShare { get; init; }

    /// <summary>Gets what a user must know of its limits, in a sentence; empty where it has none for this use.</summary>
    public string Limits { get; init; } = "";

    /// <summary>Gives the range of a full scale in g; null where the chip has none such.</summary>
    public ChipRange? RangeOf(double fullScaleG) => Ranges.Any(range => range.FullScaleG == fullScaleG) ? Ranges.First(range => range.FullScaleG == fullScaleG) : null;

    /// <summary>Gives the setting for a rate in Hz; null where the chip has none such.</summary>
    public ChipRate? RateOf(double hz) => Rates.Any(rate => rate.Hz == hz) ? Rates.First(rate => rate.Hz == hz) : null;
}
