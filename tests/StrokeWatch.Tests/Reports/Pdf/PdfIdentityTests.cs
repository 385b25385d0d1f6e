using System.Text;
using StrokeWatch.Reports.Pdf;
using Xunit;

namespace StrokeWatch.Tests.Reports.Pdf;

public sealed class PdfIdentityTests
{
    private const string One = "1 0 obj/FontName/QWERTY+DejaVu/BaseFont/QWERTY+DejaVu/BaseFont/ASDFGH+DejaVu,Bold/Metadata 7 0 R <?xpacket begin=\"\"?>A & B<?xpacket end=\"w\"?> \u00ff"
        + "<</ID[<53B9448BA259E44F804058CC3793C612><53B9448BA259E44F804058CC3793C612>]>>";

    [Fact]
    public void Two_documents_that_differ_only_by_chance_become_the_same_and_no_place_in_them_moves()
    {
        var other = One.Replace("QWERTY", "ZXCVBN", StringComparison.Ordinal).Replace("ASDFGH", "POIUYT", StringComparison.Ordinal).Replace("53B9", "A1B2", StringComparison.Ordinal);
        var (first, second) = (Fix(One), Fix(other));
        Assert.Equal(first, second);
        Assert.Equal(One.Length, first.Length);
        Assert.Contains("/BaseFont/AAAAAA+DejaVu/BaseFont/AAAAAB+DejaVu,Bold", first, StringComparison.Ordinal);
        Assert.DoesNotContain("xpacket", first, StringComparison.Ordinal);
        Assert.DoesNotContain("Metadata", first, StringComparison.Ordinal);
        Assert.Equal(One.IndexOf("/ID[", StringComparison.Ordinal), first.IndexOf("/ID[", StringComparison.Ordinal));
    }

    [Fact]
    public void Documents_that_differ_in_what_they_say_have_other_identifiers() =>
        Assert.NotEqual(Fix(One)[^70..], Fix(One.Replace("1 0 obj", "1 0 obk", StringComparison.Ordinal))[^70..]);

    private static string Fix(string document) => Encoding.Latin1.GetString(PdfIdentity.Fix(Encoding.Latin1.GetBytes(document)));
}
