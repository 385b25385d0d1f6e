using System.Globalization;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using StrokeWatch.Pipeline;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>The log's lines as systemd's journal reads them.</summary>
public sealed class JournalFormatterTests : ILogEventSink
{
    private readonly List<string> lines = [];

    /// <summary>The numbers are those of syslog(3): 2 critical, 3 error, 4 warning, 6 information, 7 debug (from memory).</summary>
    [Fact]
    public void Each_event_is_one_line_with_its_priority_in_front_whatever_it_says_and_whatever_the_culture()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            CultureInfo.CurrentCulture = comma;
            using var log = new LoggerConfiguration().MinimumLevel.Verbose().WriteTo.Sink(this).CreateLogger();
            log.Fatal("gone");
            log.Error(new IOException("the disk\nis full"), "cannot write");
            log.Warning("Alarm {Kind:l} raised: {Stroke} mm", "over-stroke", 1.95);
            log.Information("{Words:l}", "two\r\nlines\u2028of a name");
            log.Debug("detail");
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Equal(
            ["<2>gone\n", "<3>cannot write System.IO.IOException: the disk is full\n", "<4>Alarm over-stroke raised: 1.95 mm\n", "<6>two lines of a name\n", "<7>detail\n"],
            lines);
    }

    void ILogEventSink.Emit(LogEvent logEvent)
    {
        using var output = new StringWriter(CultureInfo.InvariantCulture);
        new JournalFormatter().Format(logEvent, output);
        lines.Add(output.ToString());
    }
}
