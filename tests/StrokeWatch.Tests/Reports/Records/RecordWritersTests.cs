using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Xml.Linq;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Pdf;
using StrokeWatch.Reports.Records;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Tests.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Records;

public sealed class RecordWritersTests : IDisposable
{
    private readonly RecordFiles files = new();

    public void Dispose() => files.Dispose();

    [SkippableFact]
    public void Page_and_PDF_say_all_that_the_record_says_in_the_same_order()
    {
        // pdftotext of poppler-utils is the outside reader; it gives the text in the order in which it was written.
        var record = RecordBuilder.Make(Full());
        File.WriteAllBytes(files.At("record.pdf"), RecordPdf.Write(record, PdfPaper.A4));
        var paper = Bare(RecordFiles.Poppler("pdftotext", "-raw", files.At("record.pdf"), "-"));
        var page = Bare(XDocument.Parse(RecordPage.Write(record)).Root!.Element("body")!.Value);
        var said = Said(record).ToList();
        Assert.True(said.Count > 150);
        var (onPaper, onPage) = (0, 0);
        foreach (var text in said.Select(Bare).Where(text => text.Length > 0))
        {
            onPaper = After(paper, text, onPaper, "PDF");
            onPage = After(page, text, onPage, "page");
        }
    }

    [Fact]
    public void The_page_is_well_formed_runs_nothing_and_allows_only_its_own_style_sheet()
    {
        var text = RecordPage.Write(RecordBuilder.Make(Full()));
        var page = XDocument.Parse(text).Root!;
        Assert.DoesNotContain(page.Descendants(), element => element.Name.LocalName is "script" or "link" or "img" or "iframe" or "object");
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(page.Descendants("style").Single().Value)));
        Assert.Contains(hash, page.Descendants("meta").Single(meta => meta.Attribute("http-equiv") is not null).Attribute("content")!.Value, StringComparison.Ordinal);
        Assert.Equal(3, Pages.Drawings(page, "").Count());
    }

    [Fact]
    public void What_was_not_given_is_said_in_a_sentence()
    {
        var input = new RecordInput { Feeder = Full().Feeder with { Springs = null, Masses = null, RestGapMetres = null }, FeederFile = "feeder.toml", Now = RecordFiles.Noon };
        var page = XDocument.Parse(RecordPage.Write(RecordBuilder.Make(input))).Root!.Value;
        foreach (var sentence in (string[])
        [
            "No trials were given", "No tuning curve is drawn", "no capture, no trial, and no store", "Only a capture tells where the uncertainty comes from", "No store was given",
            "neither a capture nor a store was given", "There is no baseline yet", "the sensitivity is assumed right within 2 %", "Nobody was named",
            "It says nothing of the springs ([springs]), the masses ([masses]), the air gap ([air_gap]) and the full voltage ([supply]).",
        ])
        {
            Assert.Contains(sentence, page, StringComparison.Ordinal);
        }
    }

    [SkippableFact]
    public void The_PDF_carries_title_author_and_date_and_one_embedded_font_in_two_weights_and_no_picture_of_dots()
    {
        File.WriteAllBytes(files.At("record.pdf"), RecordPdf.Write(RecordBuilder.Make(Full()), PdfPaper.Letter));
        var facts = RecordFiles.Poppler("pdfinfo", "-isodates", files.At("record.pdf")).Split('\n').Select(line => line.Split(':', 2)).Where(pair => pair.Length == 2)
            .ToDictionary(pair => pair[0], pair => pair[1].Trim());
        Assert.Equal("Cullet feeder: machine record of 26 November 2026", facts["Title"]);
        Assert.Equal("Day shift", facts["Author"]);
        Assert.StartsWith("2026-11-26T12:00:00", facts["CreationDate"], StringComparison.Ordinal);
        Assert.Contains("612 x 792", facts["Page size"], StringComparison.Ordinal);
        var fonts = RecordFiles.Poppler("pdffonts", files.At("record.pdf")).Trim().Split('\n')[2..];
        Assert.Equal(2, fonts.Length);
        Assert.All(fonts, font => Assert.Matches(@"^[A-Z]{6}\+DejaVu Sans Condensed.* yes +yes +yes ", font));
        Assert.Equal(2, RecordFiles.Poppler("pdfimages", "-list", files.At("record.pdf")).Trim().Split('\n').Length);
    }

    [SkippableFact]
    public void A_table_that_reaches_over_pages_has_its_head_on_each_and_every_page_its_number()
    {
        var rows = Enumerable.Range(1, 200).Select(i => (IReadOnlyList<string>)[$"row-{i}", "a sentence that is somewhat long, so that it takes more than the one line that there is for it in this column"]).ToList();
        var record = RecordBuilder.Make(Full()) with { Sections = [new("Rows", [new RecordTable(["Head of rows", "Words"], rows)])] };
        File.WriteAllBytes(files.At("record.pdf"), RecordPdf.Write(record, PdfPaper.A4));
        var pages = RecordFiles.Poppler("pdftotext", "-raw", files.At("record.pdf"), "-").TrimEnd('\f').Split('\f');
        Assert.True(pages.Length > 3);
        Assert.All(pages, page => Assert.Contains("Head of rows", page, StringComparison.Ordinal));
        Assert.All(pages.Index(), page => Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"page {page.Index + 1} of {pages.Length}"), page.Item, StringComparison.Ordinal));
        Assert.Equal(Enumerable.Range(1, 200).Select(i => $"row-{i}"), pages.SelectMany(page => page.Split(' ', '\n')).Where(word => word.StartsWith("row-", StringComparison.Ordinal)));
    }

    [SkippableFact]
    public void A_hostile_name_stays_text_in_both_and_what_the_font_lacks_is_said()
    {
        const string name = "</title><script>x</script> & (\\) /ID[ Жук \u202e\u0007 漢字";
        var input = Full();
        var record = RecordBuilder.Make(input with { Feeder = input.Feeder with { Name = name }, Who = "O'Neil & <Sons>" });
        Assert.Empty(XDocument.Parse(RecordPage.Write(record)).Descendants("script"));
        File.WriteAllBytes(files.At("record.pdf"), RecordPdf.Write(record, PdfPaper.A4));
        var text = RecordFiles.Poppler("pdftotext", "-raw", files.At("record.pdf"), "-");
        Assert.StartsWith(Bare("</title><script>x</script> & (\\) /ID[ Жук \uFFFD\uFFFD \uFFFD\uFFFD"), Bare(text), StringComparison.Ordinal);
        Assert.Contains("are not in this document's font", text, StringComparison.Ordinal);
        Assert.Contains("O'Neil & <Sons>", RecordFiles.Poppler("pdfinfo", files.At("record.pdf")), StringComparison.Ordinal);
    }

    /// <summary>Gives a record that has everything but a store.</summary>
    internal RecordInput Full()
    {
        var feeder = FeederFile.Read(files.FeederFile).Value!;
        var trials = TrialsFile.Read(files.TrialsFile, feeder).Value!;
        using var source = CaptureFile.Open(RecordFiles.Capture, SensorChannels.Wanted(feeder));
        return new()
        {
            Feeder = feeder,
            FeederFile = files.FeederFile,
            Now = RecordFiles.Noon,
            Who = "Day shift",
            Trials = [.. trials.Select(entry => entry.Trial)],
            Captures = [Replayer.Run("steady-60hz.wav", source, feeder, new AlarmDelays())],
            Baselines = BaselineHistory.Empty.Add(new()
            {
                Origin = BaselineOrigin.Learned,
                Made = RecordFiles.Noon.AddDays(-9),
                Features = [new() { Name = "stroke_mm", Mean = 1.4592, Spread = 0.0021, Count = 30, From = RecordFiles.Noon.AddDays(-13), To = RecordFiles.Noon.AddDays(-9) }],
            }),
        };
    }

    private static int After(string whole, string text, int from, string where)
    {
        var at = whole.IndexOf(text, from, StringComparison.Ordinal);
        Assert.True(at >= 0, $"the {where} does not say, or says out of turn: {text}");
        return at + text.Length;
    }

    /// <summary>Leaves the letters: lines are broken differently, and pages end in the middle of sentences.</summary>
    private static string Bare(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));

    private static IEnumerable<string> Said(RecordDocument record)
    {
        yield return record.Feeder;
        yield return record.About;
        yield return record.Reading.Stroke;
        yield return record.Reading.Inches;
        yield return record.Reading.Spread;
        yield return record.Reading.Verdict;
        yield return record.Reading.Strike;
        foreach (var section in record.Sections)
        {
            yield return section.Heading;
            foreach (var text in section.Blocks.SelectMany(Of))
            {
                yield return text;
            }
        }
    }

    private static IEnumerable<string> Of(RecordBlock block) => block switch
    {
        RecordText text => [text.Words],
        RecordFacts facts => facts.Rows.SelectMany(row => (string[])[row.Name, row.Value]),
        RecordTable table => table.Columns.Concat(table.Rows.SelectMany(row => row)),
        RecordList list => list.Items,
        RecordPicture picture => [picture.Caption],
        RecordSignature signature => signature.Lines.SelectMany(line => (string[])[line.Value, line.Name]),
        _ => throw new InvalidOperationException(block.GetType().Name),
    };
}
