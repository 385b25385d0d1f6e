using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports;

namespace StrokeWatch.Session;

/// <summary>Makes a baseline of a session's final reading, as a version that was told.</summary>
internal static class SessionBaseline
{
    /// <summary>Adds it to the file of baselines; one that this very reading has already made stays the only one.</summary>
    public static (int? Version, IReadOnlyList<string> Said, string? Trouble) Learn(string path, FeederDescription feeder, BookTrial trial, DateTimeOffset now)
    {
        var errors = new ConfigurationErrors(path);
        var note = $"told by the tuning session's reading of {trial.Utc.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC with {trial.Rear} in the rear; one reading, usual spreads";
        if (BaselineFile.Read(path, errors) is { Current: { } current } && current.Note == note)
        {
            return (current.Version, [BaselineText.Title(current)], null);
        }

        var features = OneReading.Features(Readings(trial, feeder));
        if (errors.Count == 0 && features.Count > 0)
        {
            var added = BaselineFile.Add(path, new() { Origin = BaselineOrigin.Told, Made = now, Note = note, Features = features }, errors);
            if (added is not null)
            {
                return (added.Version, [$"{path}: {BaselineText.Title(added)}"], null);
            }
        }

        return (null, [], errors.Count > 0 ? errors.First().ToString() : "The reading holds nothing that a baseline could be made of; measure again.");
    }

    private static IEnumerable<FeatureReading> Readings(BookTrial trial, FeederDescription feeder)
    {
        if (trial.StrokeMetres is { } stroke)
        {
            yield return new("stroke_mm", stroke * 1e3);
        }

        if (trial.NaturalHz is { } hertz)
        {
            var own = trial.NaturalUncertaintyHz / 2 ?? 0;
            yield return new("natural_frequency_hz", hertz, own);
            yield return new("tuning_ratio", hertz / feeder.Drive.NominalHz, own / feeder.Drive.NominalHz);
        }

        if (trial.DampingRatio is { } damping)
        {
            yield return new("damping_ratio", damping);
        }
    }
}
