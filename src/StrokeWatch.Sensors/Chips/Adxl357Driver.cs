namespace StrokeWatch.Sensors.Chips;

/// <summary>The ADXL357.</summary>
/// <remarks>
/// Data sheet ADXL356/ADXL357 rev. A, register map: DEVID_AD 0x00, STATUS 0x04, FIFO_ENTRIES 0x05, TEMP2 0x06, FIFO_DATA 0x11, FILTER 0x28, FIFO_SAMPLES 0x29, RANGE 0x2C,
/// POWER_CTL 0x2D, SELF_TEST 0x2E, RESET 0x2F with 0x52. Addresses agree with public drivers; bits of STATUS, waits and the slope of the temperature (1885 at 25 °C, −9.05 a degree) from memory.
/// The change that the self-test makes, 0.3 g on x and y and 1.5 g on z, is what the maker's forum says of the ADXL355; a third to twice of it is allowed.
/// </remarks>
internal sealed class Adxl357Driver : IChipDriver
{
    /// <summary>The entries that the store holds.</summary>
    public const int Entries = 96;

    /// <summary>Entries from which a drain is late enough to look whether the store overflowed while it was read.</summary>
    private const int Late = 72;
    private const byte Status = 0x04;
    private const byte Overrun = 0x04;
    private const byte FifoData = 0x11;
    private readonly IRegisters registers;
    private readonly ChipSetting[] settings;
    private readonly Adxl357Fifo fifo = new();
    private readonly byte[] raw = new byte[3 * Entries];
    private byte? revision;

    /// <summary>Makes the driver of a chip that is set as configured.</summary>
    public Adxl357Driver(IRegisters registers, ChipSettings configured)
    {
        this.registers = registers;

        // Bit 7 of RANGE is the speed of I2C and set after a reset; the settings are written in standby, which POWER_CTL ends.
        settings =
        [
            new(0x28, configured.Rate.Code, "FILTER"),
            new(0x29, Entries, "FIFO_SAMPLES"),
            new(0x2A, 0, "INT_MAP"),
            new(0x2B, 0, "SYNC"),
            new(0x2C, (byte)(0x80 | configured.Range.Code), "RANGE", 0x43),
            new(0x2D, 0, "POWER_CTL", 0x07),
        ];
    }

    /// <inheritdoc/>
    public IReadOnlyList<(double Low, double High)> SelfTestLimits { get; } = [(0.1, 0.6), (0.1, 0.6), (0.5, 3.0)];

    /// <inheritdoc/>
    public string? Identify()
    {
        Span<byte> read = stackalloc byte[4];
        registers.Read(0x00, read);
        if (Identity.Compare(read[..3], [0xAD, 0x1D, 0xED]) is { } other)
        {
            return other;
        }

        var changed = revision is { } known && known != read[3];
        revision ??= read[3];
        return changed ? "another chip of this kind answers: its revision differs" : null;
    }

    /// <inheritdoc/>
    public string? Start(Action<TimeSpan> pause)
    {
        registers.Write(0x2F, 0x52);
        pause(TimeSpan.FromMilliseconds(10));
        fifo.Break();
        return Identify() ?? ChipSetting.Settle(registers, settings);
    }

    /// <inheritdoc/>
    public string? Holds() => Identify() ?? ChipSetting.Check(registers, settings);

    /// <inheritdoc/>
    public void SelfTest(bool on) => registers.Write(0x2E, on ? (byte)3 : (byte)0);

    /// <inheritdoc/>
    public bool Drain(ChipDrain drain)
    {
        Span<byte> state = stackalloc byte[2];
        registers.Read(Status, state);
        var entries = state[1] & 0x7F;
        if (entries > Entries)
        {
            return false;
        }

        if ((state[0] & Overrun) != 0)
        {
            drain.Overflow();
            fifo.Break();
        }

        var bytes = raw.AsSpan(0, 3 * (entries - (entries % 3)));
        if (bytes.IsEmpty)
        {
            return true;
        }

        registers.Read(FifoData, bytes);
        fifo.Take(bytes, drain);
        if (entries >= Late)
        {
            registers.Read(Status, state);
            if ((state[0] & Overrun) != 0)
            {
                // Where in what was just read the loss lies nobody can say, so that none of it is passed on.
                drain.Clear();
                drain.Overflow();
                fifo.Break();
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public double? Temperature()
    {
        Span<byte> read = stackalloc byte[2];
        registers.Read(0x06, read);
        return 25 + (((((read[0] & 0x0F) << 8) | read[1]) - 1885) / -9.05);
    }

    /// <inheritdoc/>
    public void Dispose() => registers.Dispose();
}
