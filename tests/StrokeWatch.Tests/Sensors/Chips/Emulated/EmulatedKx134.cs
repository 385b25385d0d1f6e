using Microsoft.Extensions.Time.Testing;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>The KX134-1211 by its embedded registers (technical reference manual; addresses as in the maker's register definitions); the buffer's 86 samples and the self-test's 0.5 g from memory.</summary>
internal sealed class EmulatedKx134 : EmulatedChip
{
    private readonly Queue<short> buffer = new();
    private int half;

    public EmulatedKx134(FakeTimeProvider time)
        : base(time) => PowerOn();

    public Func<long, (int X, int Y, int Z)>? Counts { get; set; }

    public double Force { get; set; } = 0.5;

    public override double RateHz => 0.78125 * (1 << (Registers[0x21] & 0x0F));

    public override bool Running => (Registers[0x1B] & 0x80) != 0;

    public override void PowerOn()
    {
        Array.Clear(Registers);
        buffer.Clear();
        (Registers[0x12], Registers[0x13], Registers[0x21]) = (0x55, 0x46, 0x06);
    }

    public override byte After(byte register) => register == 0x63 ? register : (byte)(register + 1);

    public override void WriteByte(byte register, byte value)
    {
        if (register == 0x1C && (value & 0x80) != 0)
        {
            PowerOn();
        }
        else if (register == 0x62)
        {
            buffer.Clear();
        }
        else if (register == 0x1B || (register is >= 0x1C and <= 0x5F && !Running))
        {
            // All but CNTL1 may only be written while the chip stands: elsewhere the manual promises nothing.
            Registers[register] = value;
        }
    }

    public override byte ReadByte(byte register)
    {
        var level = buffer.Count * 2;
        switch (register)
        {
            case 0x60:
                return (byte)level;
            case 0x61:
                return (byte)(level >> 8);
            case 0x63:
                if (buffer.Count == 0)
                {
                    return 0;
                }

                var low = half == 0;
                half ^= 1;
                return low ? (byte)buffer.Peek() : (byte)(buffer.Dequeue() >> 8);
            default:
                return Registers[register];
        }
    }

    public override void EndRead() => half = 0;

    protected override void Sample((double X, double Y, double Z) g)
    {
        var force = Registers[0x5D] == 0xCA ? Force : 0;
        var (x, y, z) = Counts?.Invoke(Taken - 1) ?? (Count(g.X + force), Count(g.Y + force), Count(g.Z + force));
        if ((Registers[0x5F] & 0xC3) == 0xC0 && buffer.Count < 3 * 86)
        {
            buffer.Enqueue((short)x);
            buffer.Enqueue((short)y);
            buffer.Enqueue((short)z);
        }
    }

    private int Count(double g) => (int)Math.Clamp(Math.Round(g * (4096 >> ((Registers[0x1B] >> 3) & 3))), short.MinValue, short.MaxValue);
}
