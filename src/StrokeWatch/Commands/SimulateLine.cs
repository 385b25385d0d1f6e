using System.CommandLine;

namespace StrokeWatch.Commands;

/// <summary>The command <c>simulate</c>, as the command line has it.</summary>
internal static class SimulateLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var scenario = new Argument<string>("SCENARIO") { Description = "The scenario (TOML)." };
        var target = new Option<string>("--out") { Description = "The capture to write, .csv or .wav; its truth is written beside it.", Required = true };
        var command = new Command("simulate", "Writes a capture, and its truth beside it, from the machine model.") { scenario, target };
        command.SetAction(parsed => SimulateCommand.Run(parsed.GetValue(scenario)!, parsed.GetValue(target)!, surroundings.Error));
        return command;
    }
}
