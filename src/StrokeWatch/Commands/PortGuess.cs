using System.Text;

namespace StrokeWatch.Commands;

/// <summary>Guesses by the look of bytes what somebody speaks at the other end.</summary>
internal static class PortGuess
{
    private const double Printable = 0.98;
    private const int LineShown = 40;

    /// <summary>Says whether they look like text lines.</summary>
    public static bool LooksLikeText(ReadOnlySpan<byte> bytes)
    {
        var plain = 0;
        foreach (var one in bytes)
        {
            plain += one is (>= (byte)' ' and <= (byte)'~') or (byte)'\r' or (byte)'\n' or (byte)'\t' ? 1 : 0;
        }

        return bytes.Length > 0 && plain >= Printable * bytes.Length && bytes.Contains((byte)'\n');
    }

    /// <summary>Says whether the sync bytes of frames are among them, with a kind of a version that is known after them.</summary>
    public static bool LooksLikeFrames(ReadOnlySpan<byte> bytes)
    {
        for (var i = 0; i + 2 < bytes.Length; i++)
        {
            if (bytes[i] == 0xA5 && bytes[i + 1] == 0x57 && bytes[i + 2] is 0x11 or 0x12 or 0x21 or 0x22 or 0x31 or 0x32)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Gives the first whole line, cut where it is long.</summary>
    public static string Line(ReadOnlySpan<byte> bytes)
    {
        var lines = Encoding.ASCII.GetString(bytes).Split('\n', StringSplitOptions.TrimEntries);
        var line = lines.Length > 2 ? lines[1] : lines[0];
        return line.Length > LineShown ? line[..LineShown] + "…" : line;
    }
}
