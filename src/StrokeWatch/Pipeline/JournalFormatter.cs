using System.Globalization;
using Serilog.Events;
using Serilog.Formatting;

namespace StrokeWatch.Pipeline;

/// <summary>One line an event, its priority in front as systemd's journal reads it: <c>&lt;4&gt;text</c>, after sd-daemon(3) and the levels of syslog(3).</summary>
internal sealed class JournalFormatter : ITextFormatter
{
    /// <inheritdoc/>
    public void Format(LogEvent logEvent, TextWriter output)
    {
        var priority = logEvent.Level switch
        {
            LogEventLevel.Fatal => 2,
            LogEventLevel.Error => 3,
            LogEventLevel.Warning => 4,
            LogEventLevel.Information => 6,
            _ => 7,
        };
        var text = $"{logEvent.RenderMessage(CultureInfo.InvariantCulture)} {logEvent.Exception}".ReplaceLineEndings(" ").TrimEnd();
        output.Write($"<{priority}>{text}\n");
    }
}
