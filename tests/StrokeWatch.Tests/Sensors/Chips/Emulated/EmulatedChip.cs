using Microsoft.Extensions.Time.Testing;

namespace StrokeWatch.Tests.Sensors.Chips.Emulated;

/// <summary>A chip as its registers show it: it samples by the fake clock while it runs.</summary>
internal abstract class EmulatedChip(FakeTimeProvider time)
{
    private long since = time.GetTimestamp();
    private long taken;
    private double owed;

    /// <summary>Gets or sets the acceleration in g of the n-th sample since the chip was made.</summary>
    public Func<long, (double X, double Y, double Z)> Signal { get; set; } = _ => (0, 0, 1);

    /// <summary>Gets or sets the relative error of the chip's own clock.</summary>
    public double RateError { get; set; }

    public BusTrouble Trouble { get; set; }

    /// <summary>Gets or sets whether the sampling engine stands still although the chip answers.</summary>
    public bool Frozen { get; set; }

    public byte[] Registers { get; } = new byte[256];

    public long Taken => taken;

    /// <summary>Gets the reads and writes that failed or not, since the chip was made.</summary>
    public int Transfers { get; private set; }

    public abstract double RateHz { get; }

    public abstract bool Running { get; }

    /// <summary>The supply dips: all registers are as after switching on.</summary>
    public abstract void PowerOn();

    public abstract byte ReadByte(byte register);

    public abstract void WriteByte(byte register, byte value);

    /// <summary>Gives the address after one, within a burst.</summary>
    public abstract byte After(byte register);

    /// <summary>A burst of reading ends.</summary>
    public virtual void EndRead()
    {
    }

    public void Read(byte register, Span<byte> into)
    {
        Begin();
        foreach (ref var value in into)
        {
            value = Trouble == BusTrouble.AllOnes ? (byte)0xFF : Trouble == BusTrouble.AllZeros ? (byte)0 : ReadByte(register);
            register = After(register);
        }

        EndRead();
    }

    public void Write(byte register, ReadOnlySpan<byte> values)
    {
        Begin();
        foreach (var value in values)
        {
            if (Trouble == BusTrouble.None)
            {
                WriteByte(register, value);
            }

            register = After(register);
        }
    }

    protected abstract void Sample((double X, double Y, double Z) g);

    private void Begin()
    {
        Transfers++;
        if (Trouble is BusTrouble.NoAcknowledgement or BusTrouble.Stuck)
        {
            throw new IOException($"Error {(Trouble == BusTrouble.Stuck ? 110 : 121)} performing I2C data transfer.");
        }

        var elapsed = time.GetElapsedTime(since).TotalSeconds;
        since = time.GetTimestamp();
        if (!Running || Frozen)
        {
            owed = 0;
            return;
        }

        owed += elapsed * RateHz * (1 + RateError);
        for (; owed >= 1; owed--)
        {
            Sample(Signal(taken++));
        }
    }
}
