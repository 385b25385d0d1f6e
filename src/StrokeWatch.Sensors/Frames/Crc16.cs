namespace StrokeWatch.Sensors.Frames;

/// <summary>
/// The check sum of a frame: CRC-16/CCITT-FALSE (polynomial 0x1021, start 0xFFFF, no reflection, nothing added at the end);
/// check value 0x29B1 for the text 123456789. Source: the catalogue of parametrised CRC algorithms, from memory.
/// </summary>
internal static class Crc16
{
    private static readonly ushort[] Table = MakeTable();

    /// <summary>Gives the check sum of the bytes.</summary>
    public static ushort Of(ReadOnlySpan<byte> bytes)
    {
        ushort crc = 0xFFFF;
        foreach (var b in bytes)
        {
            crc = (ushort)((crc << 8) ^ Table[(crc >> 8) ^ b]);
        }

        return crc;
    }

    private static ushort[] MakeTable()
    {
        var table = new ushort[256];
        for (var i = 0; i < 256; i++)
        {
            var crc = i << 8;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 0x8000) != 0 ? (crc << 1) ^ 0x1021 : crc << 1;
            }

            table[i] = (ushort)crc;
        }

        return table;
    }
}
