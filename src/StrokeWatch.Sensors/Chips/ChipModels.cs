namespace StrokeWatch.Sensors.Chips;

/// <summary>The table of accelerometer chips that have a driver.</summary>
/// <remarks>
/// ADXL357: data sheet ADXL356/ADXL357 rev. A, specifications (sensitivities, noise) and register map FILTER 0x28, RANGE 0x2C; FIFO of 96 entries from memory.
/// KX134-1211: technical reference manual, CNTL1 0x1B and ODCNTL 0x21; buffer of 86 samples, clock limits and noise from memory.
/// ADXL345: data sheet rev. E, BW_RATE 0x2C, DATA_FORMAT 0x31, FIFO_STATUS 0x39; noise from memory.
/// </remarks>
public static class ChipModels
{
    /// <summary>Gets the low-noise chip of 10, 20 or 40 g.</summary>
    public static ChipModel Adxl357 { get; } = new()
    {
        Kind = "adxl357",
        Name = "ADXL357",
        Ranges = [new(10, 51200, 1), new(20, 25600, 2), new(40, 12800, 3)],
        Rates = [new(125, 5), new(250, 4), new(500, 3), new(1000, 2), new(2000, 1), new(4000, 0)],
        FifoSamples = 32,
        SampleBytes = 9,
        Addresses = [0x1D, 0x53],
        MostSpiHz = 10_000_000,
        UsualSpiHz = 4_000_000,
        NoiseDensity = 75,
        BandwidthShare = 0.25,
    };

    /// <summary>Gets the wide-band chip of 8, 16, 32 or 64 g.</summary>
    public static ChipModel Kx134 { get; } = new()
    {
        Kind = "kx134",
        Name = "KX134",
        Ranges = [new(8, 4096, 0), new(16, 2048, 1), new(32, 1024, 2), new(64, 512, 3)],
        Rates = [new(400, 9), new(800, 10), new(1600, 11), new(3200, 12), new(6400, 13), new(12800, 14), new(25600, 15)],
        FifoSamples = 86,
        SampleBytes = 6,
        Addresses = [0x1E, 0x1F],
        MostSpiHz = 10_000_000,
        UsualSpiHz = 4_000_000,
        NoiseDensity = 300,
        BandwidthShare = 0.5,
    };

    /// <summary>Gets the cheap chip for small accelerations.</summary>
    public static ChipModel Adxl345 { get; } = new()
    {
        Kind = "adxl345",
        Name = "ADXL345",
        Ranges = [new(2, 256, 0), new(4, 256, 1), new(8, 256, 2), new(16, 256, 3)],
        Rates = [new(100, 10), new(200, 11), new(400, 12), new(800, 13), new(1600, 14), new(3200, 15)],
        FifoSamples = 32,
        SampleBytes = 6,
        OneSampleATransaction = true,
        Addresses = [0x53, 0x1D],
        MostSpiHz = 5_000_000,
        UsualSpiHz = 2_000_000,
        NoiseDensity = 300,
        BandwidthShare = 0.5,
        Limits = "ADXL345: for peaks below 8 g only (16 g clips with no room for harmonics), 3.9 mg a count (7.8 mg at 1600 and 3200 Hz), no filter worth the name before its converter, "
            + "each sample read by itself; for demonstrations and slow, small strokes",
    };

    /// <summary>Gets all of them.</summary>
    public static IReadOnlyList<ChipModel> All { get; } = [Adxl357, Kx134, Adxl345];

    /// <summary>Gives the chip of a name in a configuration file; null where there is none.</summary>
    public static ChipModel? Find(string? kind) => All.FirstOrDefault(model => model.Kind == kind);
}
