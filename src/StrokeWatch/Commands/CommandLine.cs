using System.CommandLine;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Commands;

/// <summary>The table of commands; each parses its own options and gives the exit status.</summary>
internal static class CommandLine
{
    /// <summary>Exit status: all well.</summary>
    public const int Well = 0;

    /// <summary>Exit status: the command worked and the machine is not well.</summary>
    public const int NotWell = 1;

    /// <summary>Exit status: bad usage, bad configuration or unreadable input.</summary>
    public const int Bad = 2;

    /// <summary>Exit status: the input was read but no stroke could be measured from it.</summary>
    public const int NoStroke = 3;

    /// <summary>Gives the table itself: what the help and the manual page are written from.</summary>
    public static RootCommand Root(Surroundings surroundings) => new("StrokeWatch measures the stroke of vibratory feeders and hears their armature strike.")
    {
        WatchLine.Build(surroundings),
        ReplayLine.Build(surroundings),
        RecordLine.Build(surroundings),
        SimulateLine.Build(surroundings),
        CheckLine.Build(surroundings),
        CalibrateLine.Build(surroundings),
        BaselineLine.Build(surroundings),
        TuneLine.Build(surroundings),
        ReportLine.Build(surroundings),
        BookLine.Build(surroundings),
        PageLine.Build(surroundings),
        AlarmsLine.Build(surroundings),
        CapturesLine.Build(surroundings),
    };

    /// <summary>Runs a command line.</summary>
    public static int Run(string[] arguments, Surroundings surroundings)
    {
        var parsed = Root(surroundings).Parse(arguments);
        if (UsageTrouble.Find(parsed) is { } usage)
        {
            surroundings.Error.WriteLine(usage);
            return Bad;
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration
            {
                EnableDefaultExceptionHandler = false,
                ProcessTerminationTimeout = null,
                Output = surroundings.Output,
                Error = surroundings.Error,
            });
        }
        catch (CaptureException trouble)
        {
            surroundings.Error.WriteLine(trouble.Message);
            return Bad;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            surroundings.Error.WriteLine($"strokewatch: {trouble.Message.ReplaceLineEndings(" ")}");
            return Bad;
        }
    }
}
