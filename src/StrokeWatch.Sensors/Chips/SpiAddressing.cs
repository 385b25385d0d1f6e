namespace StrokeWatch.Sensors.Chips;

/// <summary>How a chip's command byte on SPI is made of a register's address.</summary>
internal enum SpiAddressing
{
    /// <summary>Address in the high seven bits, bit 0 set to read: ADXL357, data sheet, serial communications.</summary>
    ReadBitLast,

    /// <summary>Bit 7 set to read, addresses go on by themselves: KX134, technical reference manual, 4-wire SPI.</summary>
    ReadBitFirst,

    /// <summary>Bit 7 set to read, bit 6 set for more than one byte: ADXL345, data sheet, SPI.</summary>
    ReadBitFirstMany,
}
