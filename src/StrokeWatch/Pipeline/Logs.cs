using System.Globalization;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Display;
using StrokeWatch.Configuration;
using StrokeWatch.Reports;

namespace StrokeWatch.Pipeline;

/// <summary>The log: to standard error, under systemd with the priority that its journal reads at the start of a line (sd-daemon(3)).</summary>
internal static class Logs
{
    private const string Plain = "{Timestamp:HH:mm:ss}  {Level:u3}  {Message:lj}{NewLine}{Exception}";
    private const string Journal = "{Message:lj} {Exception}";

    /// <summary>Makes the log; on a terminal the live line makes way for it.</summary>
    public static Logger Create(TextWriter error, LogLevelName level, bool journal, LivePanel? panel) => new LoggerConfiguration()
        .MinimumLevel.Is(level switch
        {
            LogLevelName.Debug => LogEventLevel.Debug,
            LogLevelName.Warning => LogEventLevel.Warning,
            LogLevelName.Error => LogEventLevel.Error,
            _ => LogEventLevel.Information,
        })
        .WriteTo.Sink(new WriterSink(error, journal, panel))
        .CreateLogger();

    private sealed class WriterSink(TextWriter error, bool journal, LivePanel? panel) : ILogEventSink
    {
        private readonly ITextFormatter formatter = new MessageTemplateTextFormatter(journal ? Journal : Plain, CultureInfo.InvariantCulture);

        public void Emit(LogEvent logEvent)
        {
            using var text = new StringWriter(CultureInfo.InvariantCulture);
            formatter.Format(logEvent, text);
            var line = journal ? $"<{Priority(logEvent.Level)}>{text.ToString().ReplaceLineEndings(" ").TrimEnd()}\n" : text.ToString();
            if (panel is null)
            {
                error.Write(line);
            }
            else
            {
                panel.MakeWay(() => error.Write(line));
            }
        }

        private static int Priority(LogEventLevel level) => level switch
        {
            LogEventLevel.Fatal => 2,
            LogEventLevel.Error => 3,
            LogEventLevel.Warning => 4,
            LogEventLevel.Information => 6,
            _ => 7,
        };
    }
}
