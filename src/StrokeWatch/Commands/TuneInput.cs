using System.Globalization;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Commands;

/// <summary>What the commands under <c>tune</c> read: the feeder, what it must describe, and the trials.</summary>
internal sealed record TuneInput(FeederDescription Feeder, IReadOnlyList<TuningTrial> Trials)
{
    /// <summary>Reads feeder and trials; null where something is wrong, which is then said, with the exit status.</summary>
    /// <param name="command">The command, for messages.</param>
    /// <param name="feederFile">The feeder file.</param>
    /// <param name="trialsFile">The trials file; null for none.</param>
    /// <param name="needs">The tables that the feeder file must have.</param>
    /// <param name="surroundings">Where trouble goes.</param>
    /// <param name="status">The exit status where something is wrong.</param>
    public static TuneInput? Read(string command, string feederFile, string? trialsFile, TuneNeeds needs, Surroundings surroundings, out int status)
    {
        status = CommandLine.Bad;
        var read = FeederFile.Read(feederFile);
        if (read.Value is not { } feeder)
        {
            Say(read.Errors, surroundings);
            return null;
        }

        if (Missing(feeder, needs) is { } missing)
        {
            surroundings.Error.WriteLine($"{feederFile}: {missing} {(missing.Contains(" and ", StringComparison.Ordinal) ? "are" : "is")} missing, and {command} needs {(missing.Contains(" and ", StringComparison.Ordinal) ? "them" : "it")}; add what README.md shows under \"A feeder's file\"");
            return null;
        }

        if (trialsFile is null)
        {
            return new(feeder, []);
        }

        var entries = TrialsFile.Read(trialsFile, feeder);
        if (entries.Value is not { } rows)
        {
            Say(entries.Errors, surroundings);
            return null;
        }

        var trials = new List<TuningTrial>();
        foreach (var entry in rows)
        {
            if (TrialCaptures.Measure(entry, feeder, out var reason) is not { } trial)
            {
                surroundings.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{trialsFile}:{entry.Line}: {reason}"));
                status = CommandLine.NoStroke;
                return null;
            }

            trials.Add(trial);
        }

        if (feeder.Springs is { } springs && trials.Count > 0 && new StackStock(springs, trials[^1].Rear).Number is > StackStock.Most and var number)
        {
            surroundings.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{feederFile}: `springs.stock_mm` and `springs.max_rear_leaves` allow {number} stacks; at most {StackStock.Most} are gone through: name fewer thicknesses"));
            return null;
        }

        return new(feeder, trials);
    }

    private static void Say(IEnumerable<ConfigurationError> errors, Surroundings surroundings)
    {
        foreach (var error in errors)
        {
            surroundings.Error.WriteLine(error);
        }
    }

    private static string? Missing(FeederDescription feeder, TuneNeeds needs)
    {
        var missing = new List<string>();
        if (needs.HasFlag(TuneNeeds.Springs) && feeder.Springs is null)
        {
            missing.Add("[springs]");
        }

        if (needs.HasFlag(TuneNeeds.Masses) && feeder.Masses is null)
        {
            missing.Add("[masses]");
        }

        if (needs.HasFlag(TuneNeeds.Gap) && feeder.RestGapMetres is null)
        {
            missing.Add("[air_gap]");
        }

        return missing.Count == 0 ? null : missing.Count == 1 ? missing[0] : $"{string.Join(", ", missing.SkipLast(1))} and {missing[^1]}";
    }
}
