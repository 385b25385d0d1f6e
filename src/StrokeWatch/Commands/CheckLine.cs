using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>check</c>, as the command line has it.</summary>
internal static class CheckLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var config = new Option<string?>("--config") { Description = $"The daemon's configuration; {CheckCommand.DefaultConfiguration} where not given." };
        var feeder = new Option<string?>("--feeder") { Description = "A feeder file to check by itself." };
        var command = new Command("check", "Reads the configuration and touches the hardware; says all that is wrong at once.") { config, feeder };
        command.SetAction(parsed => CheckCommand.Run(parsed.GetValue(config), parsed.GetValue(feeder), surroundings.Output, surroundings.Error, surroundings.Time));
        return command;
    }
}
