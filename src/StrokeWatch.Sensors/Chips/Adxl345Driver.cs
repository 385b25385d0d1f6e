using System.Buffers.Binary;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The ADXL345.</summary>
/// <remarks>
/// Data sheet rev. E, register map: DEVID 0x00, OFSX 0x1E, BW_RATE 0x2C, POWER_CTL 0x2D, INT_ENABLE 0x2E, DATA_FORMAT 0x31 (FULL_RES bit 3, self-test bit 7), DATAX0 0x32, FIFO_CTL 0x38, FIFO_STATUS 0x39; from
/// memory. FIFO mode: what the store holds is without a gap, and once it is full what comes is lost until it is read. Reading 0x32 to 0x37 takes one sample; 5 µs must lie between two reads, which a system call does.
/// Limits of the self-test: those for 2.5 V below and for 3.3 V above (table of self-test limits, from memory). It has no reset and no thermometer.
/// </remarks>
internal sealed class Adxl345Driver : IChipDriver
{
    /// <summary>The samples that the store holds.</summary>
    public const int Samples = 32;
    private const byte DataFormat = 0x31;
    private readonly IRegisters registers;
    private readonly ChipSetting[] settings;

    /// <summary>Makes the driver of a chip that is set as configured.</summary>
    public Adxl345Driver(IRegisters registers, ChipSettings configured)
    {
        this.registers = registers;
        settings =
        [
            new(0x1E, 0, "OFSX"),
            new(0x1F, 0, "OFSY"),
            new(0x20, 0, "OFSZ"),
            new(0x2C, configured.Rate.Code, "BW_RATE", 0x1F),
            new(0x2E, 0, "INT_ENABLE", 0x7C),
            new(DataFormat, (byte)(0x08 | configured.Range.Code), "DATA_FORMAT"),
            new(0x38, 0x40, "FIFO_CTL"),
            new(0x2D, 0x08, "POWER_CTL", 0x3F),
        ];
    }

    /// <inheritdoc/>
    public IReadOnlyList<(double Low, double High)> SelfTestLimits { get; } = [(0.2, 3.72), (-3.72, -0.2), (0.3, 5.0)];

    /// <inheritdoc/>
    public string? Identify()
    {
        Span<byte> read = stackalloc byte[1];
        registers.Read(0x00, read);
        return Identity.Compare(read, [0xE5]);
    }

    /// <inheritdoc/>
    public string? Start(Action<TimeSpan> pause)
    {
        registers.Write(0x2D, 0);
        registers.Write(0x38, 0);
        pause(TimeSpan.FromMilliseconds(5));
        return Identify() ?? ChipSetting.Settle(registers, settings);
    }

    /// <inheritdoc/>
    public string? Holds() => Identify() ?? ChipSetting.Check(registers, settings);

    /// <inheritdoc/>
    public void SelfTest(bool on) => registers.Write(DataFormat, (byte)(settings[5].Value | (on ? 0x80 : 0)));

    /// <inheritdoc/>
    public bool Drain(ChipDrain drain)
    {
        Span<byte> read = stackalloc byte[6];
        registers.Read(0x39, read[..1]);
        var entries = read[0] & 0x3F;
        if (entries > Samples + 1)
        {
            return false;
        }

        for (var entry = 0; entry < entries; entry++)
        {
            registers.Read(0x32, read);
            drain.Add(BinaryPrimitives.ReadInt16LittleEndian(read), BinaryPrimitives.ReadInt16LittleEndian(read[2..]), BinaryPrimitives.ReadInt16LittleEndian(read[4..]));
        }

        if (entries >= Samples)
        {
            drain.Overflow();
        }

        return true;
    }

    /// <inheritdoc/>
    public double? Temperature() => null;

    /// <inheritdoc/>
    public void Dispose() => registers.Dispose();
}
