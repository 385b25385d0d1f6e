using Microsoft.Extensions.Time.Testing;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>
/// The ADXL357 by its register map (data sheet ADXL356/ADXL357 rev. A, "Register map"); reset values, order of bits in STATUS, the empty marker and what an overflow drops are from memory.
/// </summary>
internal sealed class EmulatedAdxl357 : EmulatedChip
{
    private readonly Queue<(int Value, bool X)> fifo = new();
    private (int Value, bool X)? shifting;
    private int shifted;

    public EmulatedAdxl357(FakeTimeProvider time)
        : base(time) => PowerOn();

    /// <summary>Gets or sets counts that come instead of the signal's.</summary>
    public Func<long, (int X, int Y, int Z)>? Counts { get; set; }

    /// <summary>Gets or sets how far the self-test's force moves each axis, in g.</summary>
    public (double X, double Y, double Z) Force { get; set; } = (0.3, 0.3, 1.5);

    public override double RateHz => 4000.0 / (1 << (Registers[0x28] & 0x0F));

    public override bool Running => (Registers[0x2D] & 1) == 0;

    public int Held => fifo.Count;

    /// <summary>One entry is lost inside the chip, as in a read that was cut off.</summary>
    public void LoseEntry() => _ = fifo.Dequeue();

    public override void PowerOn()
    {
        Array.Clear(Registers);
        fifo.Clear();
        (Registers[0x00], Registers[0x01], Registers[0x02], Registers[0x03]) = (0xAD, 0x1D, 0xED, 0x01);
        (Registers[0x29], Registers[0x2C], Registers[0x2D]) = (0x60, 0x81, 0x01);

        // 31 °C: 1885 − 9.05 × 6, in TEMP2 and TEMP1.
        (Registers[0x06], Registers[0x07]) = (0x07, 0x27);
    }

    public override byte After(byte register) => register == 0x11 ? register : (byte)(register + 1);

    public override void WriteByte(byte register, byte value)
    {
        if (register == 0x2F && value == 0x52)
        {
            PowerOn();
        }
        else if (register is >= 0x1E and <= 0x2E)
        {
            Registers[register] = value;
        }
    }

    public override byte ReadByte(byte register)
    {
        switch (register)
        {
            case 0x04:
                var status = Registers[0x04] | (fifo.Count > 0 ? 1 : 0) | (fifo.Count >= Registers[0x29] ? 2 : 0);
                Registers[0x04] = 0;
                return (byte)status;
            case 0x05:
                return (byte)fifo.Count;
            case 0x11:
                return Shift();
            default:
                return Registers[register];
        }
    }

    protected override void Sample((double X, double Y, double Z) g)
    {
        var test = (Registers[0x2E] & 3) == 3;
        var (x, y, z) = Counts?.Invoke(Taken - 1) ?? (Count(g.X + (test ? Force.X : 0)), Count(g.Y + (test ? Force.Y : 0)), Count(g.Z + (test ? Force.Z : 0)));
        if (fifo.Count + 3 > 96)
        {
            Registers[0x04] |= 4;
            for (var i = 0; i < 3; i++)
            {
                _ = fifo.TryDequeue(out _);
            }
        }

        fifo.Enqueue((x, true));
        fifo.Enqueue((y, false));
        fifo.Enqueue((z, false));
    }

    private int Count(double g) => (int)Math.Clamp(Math.Round(g * (51200 >> ((Registers[0x2C] & 3) - 1))), -524288, 524287);

    private byte Shift()
    {
        if (shifting is null)
        {
            shifting = fifo.TryDequeue(out var entry) ? entry : (int.MinValue, false);
            shifted = 0;
        }

        var (value, x) = shifting.Value;
        var word = value == int.MinValue ? 2 : ((value & 0xFFFFF) << 4) | (x ? 1 : 0);
        var part = (byte)(word >> (16 - (8 * shifted)));
        if (++shifted == 3)
        {
            shifting = null;
        }

        return part;
    }
}
