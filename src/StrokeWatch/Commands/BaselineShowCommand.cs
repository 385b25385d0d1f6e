using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Reports;

namespace StrokeWatch.Commands;

/// <summary>The command <c>baseline show</c>.</summary>
internal static class BaselineShowCommand
{
    /// <summary>Prints a line for each version before, and the one in force in full.</summary>
    public static int Run(string path, Surroundings surroundings)
    {
        if (!File.Exists(path))
        {
            surroundings.Error.WriteLine($"{path}: is not there; name a file that strokewatch baseline learn or tell wrote, NAME.baseline.json");
            return CommandLine.Bad;
        }

        var errors = new ConfigurationErrors(path);
        if (BaselineFile.Read(path, errors) is not { } history)
        {
            BaselineOutcome.Say(errors, surroundings);
            return CommandLine.Bad;
        }

        foreach (var earlier in history.Versions.SkipLast(1))
        {
            surroundings.Output.WriteLine(BaselineText.Title(earlier));
        }

        if (history.Current is not { } current)
        {
            surroundings.Output.WriteLine($"{path}: holds no baseline yet");
            return CommandLine.Well;
        }

        surroundings.Output.Write("in force, ");
        BaselineText.Write(surroundings.Output, current);
        return CommandLine.Well;
    }
}
