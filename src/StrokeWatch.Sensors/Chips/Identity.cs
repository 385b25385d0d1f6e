namespace StrokeWatch.Sensors.Chips;

/// <summary>Words on what the identity registers of a chip gave.</summary>
internal static class Identity
{
    /// <summary>Compares identity bytes; null where they are those expected.</summary>
    public static string? Compare(ReadOnlySpan<byte> read, ReadOnlySpan<byte> expected)
    {
        if (read.SequenceEqual(expected))
        {
            return null;
        }

        var dead = read.IndexOfAnyExcept((byte)0) < 0 || read.IndexOfAnyExcept((byte)0xFF) < 0;
        return dead
            ? $"the bus reads {Convert.ToHexString(read)} throughout, so nothing answers: check supply, wiring and chip select or address"
            : $"another chip answers (it says {Convert.ToHexString(read)}, {Convert.ToHexString(expected)} was expected): correct `kind`, or the address or chip select";
    }
}
