using System.CommandLine;
using StrokeWatch.Configuration;

namespace StrokeWatch.Commands;

/// <summary>The command <c>simulate</c>, as the command line has it.</summary>
internal static class SimulateLine
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings surroundings)
    {
        var scenario = new Argument<string>("SCENARIO") { Description = "The scenario (TOML), or a history: a file with a table [history]." };
        var target = new Option<string>("--out") { Description = "The capture to write, .csv or .wav, its truth beside it; of a history the folder for its dated captures.", Required = true };
        var command = new Command("simulate", "Writes a capture, and its truth beside it, from the machine model.") { scenario, target };
        command.SetAction(parsed =>
        {
            var (file, path) = (parsed.GetValue(scenario)!, parsed.GetValue(target)!);
            return HistoryFile.IsHistory(file) ? HistoryCommand.Run(file, path, surroundings.Error) : SimulateCommand.Run(file, path, surroundings.Error);
        });
        return command;
    }
}
