using System.Globalization;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Display;
using StrokeWatch.Configuration;
using StrokeWatch.Reports;

namespace StrokeWatch.Pipeline;

/// <summary>The log: to the console's standard error; under systemd each line begins with the priority that its journal reads there (sd-daemon(3)).</summary>
internal static class Logs
{
    private const string Plain = "{Timestamp:HH:mm:ss}  {Level:u3}  {Message:lj}{NewLine}{Exception}";

    /// <summary>Makes the log; on a terminal the live line makes way for it.</summary>
    public static Logger Create(LogLevelName level, bool journal, LivePanel? panel)
    {
        ITextFormatter formatter = journal ? new JournalFormatter() : new MessageTemplateTextFormatter(Plain, CultureInfo.InvariantCulture);
        var console = new LoggerConfiguration().MinimumLevel.Verbose()
            .WriteTo.Console(formatter, standardErrorFromLevel: LogEventLevel.Verbose).CreateLogger();
        return new LoggerConfiguration().MinimumLevel.Is(LevelOf(level)).WriteTo.Sink(new MakingWay(console, panel)).CreateLogger();
    }

    private static LogEventLevel LevelOf(LogLevelName level) => level switch
    {
        LogLevelName.Debug => LogEventLevel.Debug,
        LogLevelName.Warning => LogEventLevel.Warning,
        LogLevelName.Error => LogEventLevel.Error,
        _ => LogEventLevel.Information,
    };

    /// <summary>Hands events to the console once the live line has made way.</summary>
    private sealed class MakingWay(Logger console, LivePanel? panel) : ILogEventSink, IDisposable
    {
        public void Emit(LogEvent logEvent)
        {
            if (panel is null)
            {
                console.Write(logEvent);
            }
            else
            {
                panel.MakeWay(() => console.Write(logEvent));
            }
        }

        public void Dispose() => console.Dispose();
    }
}
