using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Lines;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Pages;

public sealed class OtherPagesTests
{
    [Fact]
    public void The_example_of_text_lines_is_three_samples()
    {
        var (_, lines) = NotesPage.Blocks("text-lines.md").Single(block => block.Kind == "text");
        var decoder = new TextLineDecoder(new(), new(), TimeProvider.System);
        var run = new SampleRun();
        _ = decoder.Feed(Encoding.ASCII.GetBytes("\n" + string.Join('\n', lines) + "\n"));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.Equal(3, run.Count);
        Assert.False(run.GapBefore);
        Assert.Equal(1.377 * 9.80665, run[2][2], 9);
    }

    // Source of the formula: NASA Goddard FEMCI, "What does double amplitude mean in sine vibration?".
    [Fact]
    public void The_table_of_ranges_is_the_sinusoids_arithmetic()
    {
        var rows = Regex.Matches(NotesPage.Read("mounting-and-cautions.md"), @"^\| ([\d.]+) mm[^|]*\| ([\d.]+) g \| ([\d.]+) g \| ([\d.]+) g \| ([\d.]+) g \|", RegexOptions.Multiline);
        Assert.Equal(6, rows.Count);
        double[] frequencies = [50, 60, 100, 120];
        foreach (Match row in rows)
        {
            var stroke = Length.FromMillimetres(Number(row.Groups[1]));
            for (var i = 0; i < 4; i++)
            {
                Assert.Equal(Sinusoid.PeakAcceleration(stroke, frequencies[i]) / Gravity.Standard, Number(row.Groups[i + 2]), 0.00501);
            }
        }

        static double Number(Group group) => double.Parse(group.Value, CultureInfo.InvariantCulture);
    }

    [Fact]
    public void The_index_leads_to_every_page()
    {
        var index = NotesPage.Read("README.md");
        foreach (Match link in Regex.Matches(index, @"\]\(([a-z-]+\.md)\)"))
        {
            Assert.NotEmpty(NotesPage.Read(link.Groups[1].Value));
        }

        Assert.Equal(11, Regex.Count(index, @"\]\([a-z-]+\.md\)"));
    }

    [Fact]
    public void Every_row_under_a_heading_of_sources_and_every_advice_on_mounting_says_where_it_comes_from()
    {
        var rows = 0;
        foreach (Match link in Regex.Matches(NotesPage.Read("README.md"), @"\]\(([a-z-]+\.md)\)"))
        {
            var source = -1;
            foreach (var line in NotesPage.Read(link.Groups[1].Value).Split('\n'))
            {
                var cells = line.StartsWith('|') ? line.Trim().Trim('|').Split('|').Select(cell => cell.Trim()).ToList() : [];
                source = cells.Count == 0 ? -1 : cells.Contains("source") ? cells.IndexOf("source") : source;
                if (source >= 0 && !line.Contains("---", StringComparison.Ordinal) && !cells.Contains("source"))
                {
                    Assert.True(cells[source].Length > 3, $"{link.Groups[1].Value}: {line}");
                    rows++;
                }
            }
        }

        Assert.True(rows > 30, $"{rows} rows");
        var where = NotesPage.Read("mounting-and-cautions.md").Split("## Where and how")[1].Split("## ")[0];
        var advice = where.Split("\n- ", StringSplitOptions.RemoveEmptyEntries).Where(part => part.Trim().Length > 0).ToList();
        Assert.True(advice.Count >= 9, $"{advice.Count} pieces of advice");
        Assert.All(advice, part => Assert.Matches(@"\((?:[^()]|\([^()]*\))*(?:no source|arithmetic|from memory)", part));
    }
}
