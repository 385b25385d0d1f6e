namespace StrokeWatch.Sensors.Chips;

/// <summary>The entries of the ADXL357's store: three bytes each, x, y, z in turn, twenty bits left-justified, bit 0 set for an x, bit 1 where the store was empty.</summary>
/// <remarks>Data sheet, register FIFO_DATA 0x11 and the section on the FIFO; the empty marker from memory.</remarks>
internal sealed class Adxl357Fifo
{
    private const int XMarker = 1;
    private const int EmptyMarker = 2;
    private int held;
    private int x;
    private int y;
    private bool seeking;

    /// <summary>Forgets an unfinished sample.</summary>
    public void Break() => held = 0;

    /// <summary>Takes entries in; those out of order are skipped up to the next x, and that is noted as a loss.</summary>
    public void Take(ReadOnlySpan<byte> entries, ChipDrain drain)
    {
        for (; entries.Length >= 3; entries = entries[3..])
        {
            if ((entries[2] & EmptyMarker) != 0)
            {
                return;
            }

            var isX = (entries[2] & XMarker) != 0;
            if (isX != (held == 0))
            {
                if (!seeking)
                {
                    drain.Resync();
                }

                seeking = !isX;
                held = 0;
                if (!isX)
                {
                    continue;
                }
            }

            seeking = false;
            Put(Value(entries), drain);
        }
    }

    /// <summary>Gives the value of an entry: −524288 to 524287.</summary>
    public static int Value(ReadOnlySpan<byte> entry) => ((entry[0] << 24) | (entry[1] << 16) | (entry[2] << 8)) >> 12;

    private void Put(int value, ChipDrain drain)
    {
        switch (held++)
        {
            case 0:
                x = value;
                break;
            case 1:
                y = value;
                break;
            default:
                drain.Add(x, y, value);
                held = 0;
                break;
        }
    }
}
