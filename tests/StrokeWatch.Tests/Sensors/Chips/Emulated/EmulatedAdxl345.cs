using Microsoft.Extensions.Time.Testing;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>The ADXL345 by its register map (data sheet rev. E, from memory): FIFO mode keeps 32 samples and takes no more until they are read; a read of 0x32 to 0x37 takes one.</summary>
internal sealed class EmulatedAdxl345 : EmulatedChip
{
    private readonly Queue<(int X, int Y, int Z)> fifo = new();
    private (int X, int Y, int Z) shown;

    public EmulatedAdxl345(FakeTimeProvider time)
        : base(time) => PowerOn();

    public Func<long, (int X, int Y, int Z)>? Counts { get; set; }

    public override double RateHz => 3200.0 / (1 << (15 - (Registers[0x2C] & 0x0F)));

    public override bool Running => (Registers[0x2D] & 8) != 0;

    public override void PowerOn()
    {
        Array.Clear(Registers);
        fifo.Clear();
        (Registers[0x00], Registers[0x2C], Registers[0x30]) = (0xE5, 0x0A, 0x02);
    }

    public override byte After(byte register) => (byte)(register + 1);

    public override void WriteByte(byte register, byte value)
    {
        if (register is >= 0x1D and <= 0x38 && register is not (0x30 or (>= 0x32 and <= 0x37)))
        {
            Registers[register] = value;
            if (register == 0x38 && (value & 0xC0) == 0)
            {
                fifo.Clear();
            }
        }
    }

    public override byte ReadByte(byte register)
    {
        switch (register)
        {
            case 0x39:
                return (byte)fifo.Count;
            case >= 0x32 and <= 0x37:
                if (register == 0x32)
                {
                    shown = fifo.TryDequeue(out var next) ? next : shown;
                }

                var value = ((register - 0x32) / 2) switch { 0 => shown.X, 1 => shown.Y, _ => shown.Z };
                return (byte)(register % 2 == 0 ? value : value >> 8);
            default:
                return Registers[register];
        }
    }

    protected override void Sample((double X, double Y, double Z) g)
    {
        var test = (Registers[0x31] & 0x80) != 0;
        var (x, y, z) = Counts?.Invoke(Taken - 1) ?? (Count(g.X + (test ? 1.0 : 0)), Count(g.Y - (test ? 1.0 : 0)), Count(g.Z + (test ? 1.5 : 0)));
        if (fifo.Count < 32)
        {
            fifo.Enqueue((x, y, z));
        }
    }

    /// <summary>Full resolution keeps 256 counts a g in every range; without it ten bits are spread over the range.</summary>
    private int Count(double g)
    {
        var format = Registers[0x31];
        var range = 2 << (format & 3);
        var counts = (format & 8) != 0 ? 256.0 : 512.0 / range;
        return (int)Math.Clamp(Math.Round(g * counts), -range * counts, (range * counts) - 1);
    }
}
