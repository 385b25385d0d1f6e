using System.Diagnostics;
using StrokeWatch.Reports.Records;
using Xunit;

namespace StrokeWatch.Tests.Reports.Records;

/// <summary>The record as a browser prints it; not run where there is no Chromium, or no poppler-utils to read what it printed.</summary>
public sealed class RecordPrintTests : IDisposable
{
    private static readonly string[] Browsers = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
    private readonly RecordFiles files = new();

    public void Dispose() => files.Dispose();

    [SkippableFact]
    public async Task A_browser_prints_the_page_with_a_table_s_head_on_every_page_and_no_row_cut_in_two()
    {
        var browser = Browsers.FirstOrDefault(File.Exists);
        Skip.If(browser is null, "no Chromium is installed");
        using var tests = new RecordWritersTests();
        var rows = Enumerable.Range(1, 120).Select(i => (IReadOnlyList<string>)[$"row-{i}", $"a sentence so long that it takes more than one line in its column, whatever the paper that it is printed on, and that ends with end-{i}"]).ToList();
        var record = RecordBuilder.Make(tests.Full()) with { Sections = [new("Rows", [new RecordTable(["Head of rows", "Words"], rows)])] };
        var (page, paper) = (files.Write("record.html", RecordPage.Write(record)), files.At("printed.pdf"));
        using var printer = Process.Start(new ProcessStartInfo(browser!, ["--headless", "--no-sandbox", "--disable-gpu", $"--user-data-dir={files.At("profile")}", $"--print-to-pdf={paper}", "--no-pdf-header-footer", page])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        var said = Task.WhenAll(printer.StandardError.ReadToEndAsync(), printer.StandardOutput.ReadToEndAsync());
        await printer.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));
        await said;
        var pages = RecordFiles.Poppler("pdftotext", "-layout", paper, "-").TrimEnd('\f').Split('\f');
        Assert.True(pages.Length > 2);
        Assert.All(pages[1..], text => Assert.StartsWith("Head of", text.TrimStart(), StringComparison.Ordinal));
        foreach (var text in pages)
        {
            string[] Words(string start) => [.. text.Split(' ', '\n').Where(word => word.StartsWith(start, StringComparison.Ordinal)).Select(word => word[4..])];
            Assert.NotEmpty(Words("row-"));
            Assert.Equal(Words("row-"), Words("end-"));
        }
    }
}
