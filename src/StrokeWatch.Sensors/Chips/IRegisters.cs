namespace StrokeWatch.Sensors.Chips;

/// <summary>The registers of a chip, whatever bus they are reached by.</summary>
internal interface IRegisters : IDisposable
{
    /// <summary>Reads from a register on, in one transaction as far as the bus allows; an <see cref="IOException"/> says that the chip or the bus did not answer.</summary>
    void Read(byte register, Span<byte> into);

    /// <summary>Writes a register; an <see cref="IOException"/> says that the chip or the bus did not answer.</summary>
    void Write(byte register, byte value);
}
