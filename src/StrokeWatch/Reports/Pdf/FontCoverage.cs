using System.Buffers.Binary;
using System.Text;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Which characters a font has: its table <c>cmap</c>, format 4 (OpenType specification, chapter cmap).</summary>
internal sealed class FontCoverage
{
    private readonly HashSet<int> characters = [];

    /// <summary>Reads the table.</summary>
    /// <exception cref="InvalidDataException">The font has none that is understood.</exception>
    public FontCoverage(byte[] font)
    {
        var table = Table(font, "cmap");
        for (var i = 0; i < U16(font, table + 2); i++)
        {
            var subtable = table + (int)U32(font, table + 4 + 8 * i + 4);
            if (U16(font, subtable) == 4)
            {
                Segments(font, subtable);
                return;
            }
        }

        throw new InvalidDataException("The font has no cmap of format 4.");
    }

    /// <summary>Says whether the font has a character.</summary>
    public bool Has(Rune rune) => characters.Contains(rune.Value);

    private void Segments(byte[] font, int at)
    {
        var twice = U16(font, at + 6);
        var (ends, starts) = (at + 14, at + 16 + twice);
        for (var i = 0; i < twice; i += 2)
        {
            var (start, end, delta, offset) = (U16(font, starts + i), U16(font, ends + i), U16(font, starts + twice + i), U16(font, starts + 2 * twice + i));
            for (var code = start; code <= end && code != 0xFFFF; code++)
            {
                var glyph = offset == 0 ? (code + delta) & 0xFFFF : U16(font, starts + 2 * twice + i + offset + 2 * (code - start));
                if (glyph != 0)
                {
                    characters.Add(code);
                }
            }
        }
    }

    private static int Table(byte[] font, string name)
    {
        for (var i = 0; i < U16(font, 4); i++)
        {
            var entry = 12 + 16 * i;
            if (Encoding.ASCII.GetString(font, entry, 4) == name)
            {
                return (int)U32(font, entry + 8);
            }
        }

        throw new InvalidDataException($"The font has no table {name}.");
    }

    private static int U16(byte[] font, int at) => BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(at));

    private static uint U32(byte[] font, int at) => BinaryPrimitives.ReadUInt32BigEndian(font.AsSpan(at));
}
