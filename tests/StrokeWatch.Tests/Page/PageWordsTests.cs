using System.Text;
using System.Text.RegularExpressions;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page;
using StrokeWatch.Reports.Books;
using StrokeWatch.Sensors.Decoding;
using Xunit;

namespace StrokeWatch.Tests.Page;

/// <summary>All words that people read on the page are in one file, none is missing and none is left over.</summary>
public sealed partial class PageWordsTests
{
    private static readonly string[] Named =
    [
        .. Enum.GetValues<Verdict>().Select(one => $"verdict.{Names.Of(one)}"),
        .. Enum.GetValues<MotionState>().Select(one => $"motion.{Names.Of(one)}"),
        .. Enum.GetValues<AlarmPriority>().Select(one => $"priority.{Names.Of(one)}"),
        .. Enum.GetValues<AlarmState>().Where(one => one != AlarmState.Normal).Select(one => $"state.{Names.Of(one)}"),
        .. Enum.GetValues<AlarmAct>().Select(one => $"act.{Names.Of(one)}"),
        .. Rules.Ids.Select(id => $"finding.{id}"),
        .. Enum.GetValues<StoreState>().Select(one => $"store.{one.ToString().ToLowerInvariant()}"),
        .. Enum.GetValues<RejectReason>().Select(one => $"reject.{RejectReasons.Name(one)}"),
        .. BookNames.EntryKinds.Select(kind => $"book-kind.{kind}"),
        .. Enum.GetValues<ReminderLevel>().Select(level => $"remind.{level.ToString().ToLowerInvariant()}"),
        .. BaselineReadings.Followed.Select(feature => $"feature.{feature.Name.Replace('_', '-')}"),
        "output.influx",
        "output.mqtt",
        "output.webhook",
    ];

    /// <summary>The page's own files, without the library that draws plots.</summary>
    private static IEnumerable<string> Own => PageAssets.Files.Where(name => !name.StartsWith("uPlot.", StringComparison.Ordinal));

    private static string Scripts => string.Concat(Own.Where(name => name.EndsWith(".js", StringComparison.Ordinal)).Select(File));

    [Fact]
    public void Every_word_that_the_page_and_its_scripts_ask_for_is_there_and_none_is_left_over()
    {
        var used = Holder().Matches(File("index.html")).Concat(Asked().Matches(Scripts))
            .Select(match => match.Groups[1].Value).Where(key => !key.EndsWith('.')).Concat(Named).Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(used, PageAssets.Words().Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_page_holds_its_words_and_nothing_from_elsewhere()
    {
        var page = Encoding.UTF8.GetString(new PageAssets().Index.Span);
        Assert.DoesNotContain("{{", page, StringComparison.Ordinal);
        Assert.Contains("not a safety function", page, StringComparison.Ordinal);
        foreach (var name in Own.Where(name => name.EndsWith(".html", StringComparison.Ordinal) || name.EndsWith(".css", StringComparison.Ordinal) || name.EndsWith(".js", StringComparison.Ordinal)))
        {
            Assert.DoesNotMatch(@"https?://(?!www\.w3\.org/2000/svg)|//cdn|<script>|style=|\bon[a-z]+=", File(name));
        }
    }

    [Fact]
    public void The_page_writes_no_number_by_the_browser_s_own_culture() => Assert.DoesNotMatch("toLocale|Intl\\.|innerHTML|eval\\(", Scripts);

    private static string File(string name) => Encoding.UTF8.GetString(PageAssets.Read(name));

    [GeneratedRegex(@"\{\{([a-z0-9.-]+)\}\}")]
    private static partial Regex Holder();

    [GeneratedRegex("""(?:say\(|words\[)"([a-z][a-z0-9-]*(?:\.[a-z0-9-]+)*)"(?=[,)\]])""")]
    private static partial Regex Asked();
}
