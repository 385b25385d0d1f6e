using System.Text;
using StrokeWatch.Reports.Pdf;
using Xunit;

namespace StrokeWatch.Tests.Reports.Pdf;

public sealed class FontCoverageTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_embedded_font_has_what_the_reports_write_and_not_what_was_left_out(bool bold)
    {
        var coverage = new FontCoverage(PdfFontResolver.Read(bold));
        Assert.All("Aaz09 ±×·µΩ√°−–—’“”…≤≥≈∞²³½äßéñøŁčŽΑωЖя☐☑△▲\u202F\u00A0\uFFFD".EnumerateRunes(), rune => Assert.True(coverage.Has(rune), rune.ToString()));
        Assert.All("漢א\u0000😀".EnumerateRunes(), rune => Assert.False(coverage.Has(rune), rune.ToString()));
    }

    [Fact]
    public void The_licence_lies_beside_the_font()
    {
        var licence = House.SourceTree.Text("src/StrokeWatch/Reports/Pdf/Fonts/LICENSE.txt");
        Assert.Contains("Permission is hereby granted, free of charge", licence, StringComparison.Ordinal);
        Assert.Contains("Bitstream", licence, StringComparison.Ordinal);
        Assert.Contains("Arev", licence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_no_font_is_refused() => Assert.ThrowsAny<Exception>(() => new FontCoverage(Encoding.ASCII.GetBytes("no font at all, but some text")));
}
