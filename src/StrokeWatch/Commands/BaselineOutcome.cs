using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Reports;

namespace StrokeWatch.Commands;

/// <summary>What learning and telling a baseline share: the feeder file, the file of baselines, the words.</summary>
internal static class BaselineOutcome
{
    /// <summary>Reads the feeder file; null where anything is wrong, which is then said.</summary>
    public static FeederDescription? Feeder(string path, Surroundings surroundings)
    {
        var read = FeederFile.Read(path);
        Say(read.Errors, surroundings);
        return read.Value;
    }

    /// <summary>Adds a version to the file and shows it.</summary>
    /// <returns>False where it could not be written, which is then said.</returns>
    public static bool Add(string path, Baseline baseline, Surroundings surroundings)
    {
        var errors = new ConfigurationErrors(path);
        return Shown(path, BaselineFile.Add(path, baseline, errors), errors, surroundings);
    }

    /// <summary>Shows a version that was added; where none was, says why not and gives false.</summary>
    public static bool Shown(string path, Baseline? added, ConfigurationErrors errors, Surroundings surroundings)
    {
        if (added is null)
        {
            Say(errors, surroundings);
            return false;
        }

        surroundings.Output.Write($"{path}: ");
        BaselineText.Write(surroundings.Output, added);
        return true;
    }

    /// <summary>Says errors, a line each.</summary>
    public static void Say(IEnumerable<ConfigurationError> errors, Surroundings surroundings)
    {
        foreach (var error in errors)
        {
            surroundings.Error.WriteLine(error);
        }
    }
}
