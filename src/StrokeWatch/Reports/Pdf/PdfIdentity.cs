using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Makes a document's bytes depend on its content alone: PDFsharp draws fonts' tags and identifiers by chance.</summary>
internal static partial class PdfIdentity
{
    private const int Letters = 26, TagLetters = 6;

    /// <summary>Gives the document without its XMP packet, with tags numbered in order and identifiers drawn from the content; no length changes, so that all places in it stay right.</summary>
    public static byte[] Fix(byte[] document)
    {
        var text = Encoding.Latin1.GetString(document);
        var tags = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (Match found in Tag().Matches(text))
        {
            tags.TryAdd(found.Groups[1].Value, Numbered(tags.Count));
        }

        text = Tag().Replace(text, found => found.Value.Replace(found.Groups[1].Value, tags[found.Groups[1].Value], StringComparison.Ordinal));

        // PDFsharp 6.2.4 writes title and author into the packet without escaping them: a feeder called "A & B" would make it unreadable. The information dictionary says the same.
        text = Blank(Packet(), Blank(Reference(), text));
        text = Id().Replace(text, $"/ID[<{new string('0', 32)}><{new string('0', 32)}>]");

        // A file identifier is best a digest of the content (ISO 32000-1, 14.4).
        var digest = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(text)))[..32];
        return Encoding.Latin1.GetBytes(Id().Replace(text, $"/ID[<{digest}><{digest}>]"));
    }

    private static string Blank(Regex part, string text) => part.Replace(text, found => new(' ', found.Length), 1);

    private static string Numbered(int number)
    {
        var letters = new char[TagLetters];
        for (var i = TagLetters - 1; i >= 0; i--)
        {
            letters[i] = (char)('A' + number % Letters);
            number /= Letters;
        }

        return new(letters);
    }

    [GeneratedRegex(@"/(?:FontName|BaseFont)/([A-Z]{6})\+", RegexOptions.CultureInvariant)]
    private static partial Regex Tag();

    [GeneratedRegex(@"/Metadata \d+ 0 R", RegexOptions.CultureInvariant)]
    private static partial Regex Reference();

    [GeneratedRegex(@"<\?xpacket begin=.*?<\?xpacket end=""w""\?>", RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex Packet();

    [GeneratedRegex(@"/ID\[<[0-9A-F]{32}><[0-9A-F]{32}>\]", RegexOptions.CultureInvariant)]
    private static partial Regex Id();
}
