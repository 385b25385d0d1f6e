using System.Buffers.Binary;
using System.Device.I2c;
using System.Device.Spi;

namespace StrokeWatch.Tests.Sensors.Converters;

/// <summary>An MCP3208 or MCP3008 at the level of its wires, written from figure 6-1 of its data sheet (from memory): it looks for the start bit wherever it comes and answers from there.</summary>
internal sealed class EmulatedMcp(int bits, Func<int, double> share) : SpiDevice
{
    public bool Dead { get; set; }

    public override SpiConnectionSettings ConnectionSettings { get; } = new(0, 1);

    public override void Read(Span<byte> buffer) => throw new NotSupportedException();

    public override void Write(ReadOnlySpan<byte> buffer) => throw new NotSupportedException();

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        // Bit by bit: start, single, three bits of the channel, one clock to sample, a null bit, then the code.
        var (seen, word, clocks) = (-1, 0, 8 * writeBuffer.Length);
        readBuffer.Fill(0xFF);
        for (var clock = 0; clock < clocks; clock++)
        {
            var sent = writeBuffer[clock / 8] >> (7 - clock % 8) & 1;
            seen = seen < 0 ? (sent == 1 ? 0 : -1) : seen + 1;
            if (seen is >= 1 and <= 4)
            {
                word = (word << 1) | sent;
            }

            if (seen < 6 || Dead)
            {
                continue;
            }

            Xunit.Assert.Equal(1, word >> 3);
            var code = (int)Math.Clamp(Math.Floor(share(word & 7) * (1 << bits)), 0, (1 << bits) - 1);
            var bit = seen == 6 ? 0 : seen - 7 < bits ? code >> (bits - 1 - (seen - 7)) & 1 : 1;
            readBuffer[clock / 8] = (byte)(readBuffer[clock / 8] & ~(1 << (7 - clock % 8)) | bit << (7 - clock % 8));
        }
    }
}

/// <summary>An ADS1115 at the level of its registers, written from section 8.6 of its data sheet (from memory): a pointer, four registers, conversions one by one or by itself.</summary>
internal sealed class EmulatedAds(Func<int, double> volts) : I2cDevice
{
    private const ushort AtPowerOn = 0x8583;
    private static readonly double[] Ranges = [6.144, 4.096, 2.048, 1.024, 0.512, 0.256, 0.256, 0.256];
    private readonly ushort[] registers = [0, AtPowerOn, 0x8000, 0x7FFF];
    private int pointer;

    public bool Gone { get; set; }

    public bool Forgets { get; set; }

    /// <summary>Gets or sets whether a conversion never ends.</summary>
    public bool Busy { get; set; }

    public ushort Configuration => registers[1];

    public (ushort Low, ushort High) Thresholds => (registers[2], registers[3]);

    public override I2cConnectionSettings ConnectionSettings { get; } = new(1, 0x48);

    /// <summary>The supply dips: all registers are as at power-on, the pointer too.</summary>
    public void Dip()
    {
        lock (registers)
        {
            (pointer, registers[1], registers[2], registers[3]) = (0, AtPowerOn, 0x8000, 0x7FFF);
        }
    }

    public override void Read(Span<byte> buffer)
    {
        lock (registers)
        {
            Answer();
            Xunit.Assert.Equal(2, buffer.Length);
            if (pointer == 0 && (registers[1] >> 8 & 1) == 0)
            {
                registers[0] = (ushort)Code();
            }

            // Bit 15 reads as 0 while a conversion is under way.
            BinaryPrimitives.WriteUInt16BigEndian(buffer, pointer != 1 ? registers[pointer] : (ushort)(Busy ? registers[1] & 0x7FFF : registers[1] | 0x8000));
        }
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        lock (registers)
        {
            Answer();
            Xunit.Assert.True(buffer[0] <= 3 && buffer.Length is 1 or 3);
            pointer = buffer[0];
            if (buffer.Length == 1 || Forgets)
            {
                return;
            }

            Xunit.Assert.NotEqual(0, pointer);
            registers[pointer] = BinaryPrimitives.ReadUInt16BigEndian(buffer[1..]);
            if (pointer == 1 && buffer[1] >> 7 == 1)
            {
                registers[0] = (ushort)Code();
            }
        }
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        lock (registers)
        {
            Xunit.Assert.Equal((1, 2), (writeBuffer.Length, readBuffer.Length));
            Write(writeBuffer);
            Read(readBuffer);
        }
    }

    private short Code()
    {
        Xunit.Assert.Equal(7, Configuration >> 5 & 7);
        var input = Configuration >> 12 & 7;
        Xunit.Assert.InRange(input, 4, 7);
        return (short)Math.Clamp(Math.Round(volts(input - 4) / Ranges[Configuration >> 9 & 7] * 32768), short.MinValue, short.MaxValue);
    }

    private void Answer()
    {
        if (Gone)
        {
            throw new IOException("Error 121 performing I2C data transfer.");
        }
    }
}

/// <summary>A line that always says the same, and allocates nothing.</summary>
internal sealed class QuietSpi : SpiDevice
{
    public override SpiConnectionSettings ConnectionSettings { get; } = new(0, 1);

    public override void Read(Span<byte> buffer) => throw new NotSupportedException();

    public override void Write(ReadOnlySpan<byte> buffer) => throw new NotSupportedException();

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer) => (readBuffer[0], readBuffer[1], readBuffer[2]) = (0xFF, 0xC5, 0x55);
}

/// <summary>An ADS1115's registers that always say the same, the settings kept, and allocate nothing.</summary>
internal sealed class QuietI2c : I2cDevice
{
    private byte pointer, high, low;

    public override I2cConnectionSettings ConnectionSettings { get; } = new(1, 0x48);

    public override void Read(Span<byte> buffer) => (buffer[0], buffer[1]) = pointer == 1 ? ((byte)(high | 0x80), low) : ((byte)0x40, (byte)0);

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        pointer = buffer[0];
        (high, low) = buffer.Length == 3 && pointer == 1 ? (buffer[1], buffer[2]) : (high, low);
    }

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer)
    {
        Write(writeBuffer);
        Read(readBuffer);
    }
}
