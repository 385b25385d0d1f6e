using System.Buffers.Binary;

namespace StrokeWatch.Sensors.Chips;

/// <summary>The KX134-1211.</summary>
/// <remarks>
/// Technical reference manual, embedded registers: COTR 0x12, WHO_AM_I 0x13, CNTL1 0x1B, CNTL2 0x1C, ODCNTL 0x21, SELF_TEST 0x5D, BUF_CNTL1 0x5E, BUF_CNTL2 0x5F, BUF_STATUS 0x60, BUF_CLEAR 0x62,
/// BUF_READ 0x63, as in the maker's register definitions. The reset (0 to 0x7F, 0 and then SRST to CNTL2), its wait and the limits of the self-test (0.1 to 0.9 g, 0.5 g typical) are those of public drivers.
/// The buffer runs in FIFO mode: what it holds is without a gap, and once it is full what comes is lost until it is read. It has no thermometer.
/// </remarks>
internal sealed class Kx134Driver : IChipDriver
{
    /// <summary>The bytes that the buffer holds: 86 samples.</summary>
    public const int BufferBytes = 86 * 6;
    private const byte Control1 = 0x1B;
    private const byte BufferClear = 0x62;
    private readonly IRegisters registers;
    private readonly ChipSetting[] settings;
    private readonly byte[] raw = new byte[BufferBytes];

    /// <summary>Makes the driver of a chip that is set as configured.</summary>
    public Kx134Driver(IRegisters registers, ChipSettings configured)
    {
        this.registers = registers;

        // ODCNTL bit 6: its filter passes up to half the rate. CNTL1 bit 7 runs, bit 6 is full resolution; settings are written while it stands.
        settings =
        [
            new(0x21, (byte)(0x40 | configured.Rate.Code), "ODCNTL"),
            new(0x5E, 0, "BUF_CNTL1"),
            new(0x5F, 0xC0, "BUF_CNTL2"),
            new(Control1, (byte)(0xC0 | (configured.Range.Code << 3)), "CNTL1"),
        ];
    }

    /// <inheritdoc/>
    public IReadOnlyList<(double Low, double High)> SelfTestLimits { get; } = [(0.1, 0.9), (0.1, 0.9), (0.1, 0.9)];

    /// <inheritdoc/>
    public string? Identify()
    {
        Span<byte> read = stackalloc byte[2];
        registers.Read(0x12, read);
        return Identity.Compare(read, [0x55, 0x46]);
    }

    /// <inheritdoc/>
    public string? Start(Action<TimeSpan> pause)
    {
        registers.Write(0x7F, 0);
        registers.Write(0x1C, 0);
        registers.Write(0x1C, 0x80);
        pause(TimeSpan.FromMilliseconds(5));
        return Identify() ?? Settle();
    }

    /// <inheritdoc/>
    public string? Holds() => Identify() ?? ChipSetting.Check(registers, settings);

    /// <inheritdoc/>
    public void SelfTest(bool on)
    {
        registers.Write(Control1, 0);
        registers.Write(0x5D, on ? (byte)0xCA : (byte)0);
        registers.Write(Control1, settings[^1].Value);
        registers.Write(BufferClear, 0);
    }

    /// <inheritdoc/>
    public bool Drain(ChipDrain drain)
    {
        Span<byte> state = stackalloc byte[2];
        registers.Read(0x60, state);
        var level = state[0] | ((state[1] & 3) << 8);
        if (level > BufferBytes)
        {
            return false;
        }

        var bytes = raw.AsSpan(0, level - (level % 6));
        if (bytes.IsEmpty)
        {
            return true;
        }

        registers.Read(0x63, bytes);
        for (var at = 0; at < bytes.Length; at += 6)
        {
            drain.Add(
                BinaryPrimitives.ReadInt16LittleEndian(bytes[at..]), BinaryPrimitives.ReadInt16LittleEndian(bytes[(at + 2)..]), BinaryPrimitives.ReadInt16LittleEndian(bytes[(at + 4)..]));
        }

        if (level == BufferBytes)
        {
            drain.Overflow();
        }

        return true;
    }

    /// <inheritdoc/>
    public double? Temperature() => null;

    /// <inheritdoc/>
    public void Dispose() => registers.Dispose();

    private string? Settle()
    {
        registers.Write(Control1, 0);
        var wrong = ChipSetting.Settle(registers, settings);
        registers.Write(BufferClear, 0);
        return wrong;
    }
}
