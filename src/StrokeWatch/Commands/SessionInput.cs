using StrokeWatch.Configuration;
using StrokeWatch.Session;

namespace StrokeWatch.Commands;

/// <summary>What the session and the guided checks read of their options, and where their answers come from.</summary>
internal static class SessionInput
{
    /// <summary>Says what is wrong with the options, a line each; false where nothing is.</summary>
    public static bool Trouble(TuneSessionCommand command, Surroundings surroundings)
    {
        var troubles = command.Captures.Where(file => !File.Exists(file)).Select(file => $"{file}: there is no such capture; name CSV, TSV or WAV files after --capture").ToList();
        if (command is { Resume: true, New: true })
        {
            troubles.Add("strokewatch tune session: --resume and --new exclude each other; give one of them");
        }

        if (command is { ConfigurationFile: not null, Captures.Count: > 0 })
        {
            troubles.Add("strokewatch tune session: --config and --capture exclude each other; a capture can be named in the session as well");
        }

        troubles.ForEach(surroundings.Error.WriteLine);
        return troubles.Count > 0;
    }

    /// <summary>Reads the daemon's configuration, where one is named; false where anything is wrong with it, which is then said.</summary>
    public static bool Configuration(TuneSessionCommand command, Surroundings surroundings, out WatchConfiguration? configuration)
    {
        configuration = null;
        if (command.ConfigurationFile is not { } file)
        {
            return true;
        }

        var read = WatchFile.Read(file);
        foreach (var error in read.Errors)
        {
            surroundings.Error.WriteLine(error);
        }

        if (read.Value is { } value && Path.GetFullPath(value.FeederPath) != Path.GetFullPath(command.FeederFile))
        {
            surroundings.Error.WriteLine($"{file}: belongs to the feeder file {value.FeederPath}, not to {command.FeederFile}; give the configuration of this feeder");
            return false;
        }

        configuration = read.Value;
        return configuration is not null;
    }

    /// <summary>Gives the person's answers: keys where the input is a terminal, else lines.</summary>
    public static IAnswers Answers(Surroundings surroundings) => surroundings.ReadKey is { } key
        ? new KeyAnswers(key, surroundings.Output, surroundings.Time, surroundings.Stop)
        : new LineAnswers(surroundings.Input, surroundings.Output, surroundings.Stop);
}
