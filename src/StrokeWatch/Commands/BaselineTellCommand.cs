using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Commands;

/// <summary>The command <c>baseline tell</c>: a baseline that a person knows, as at commissioning.</summary>
internal sealed class BaselineTellCommand
{
    /// <summary>Gets the feeder file.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets the features as the user wrote them.</summary>
    public required IReadOnlyList<string> Features { get; init; }

    /// <summary>Gets the file of baselines, if given.</summary>
    public string? Target { get; init; }

    /// <summary>Gets why the version is made, if given.</summary>
    public string? Note { get; init; }

    /// <summary>Runs.</summary>
    public int Run(Surroundings surroundings)
    {
        if (BaselineOutcome.Feeder(FeederFile, surroundings) is null)
        {
            return CommandLine.Bad;
        }

        var told = new List<BaselineFeature>();
        foreach (var text in Features)
        {
            if (Read(text, out var trouble) is not { } feature || told.Any(other => other.Name == feature.Name))
            {
                surroundings.Error.WriteLine($"strokewatch baseline tell: --feature {text}: {trouble ?? "is there twice; give each feature once"}");
                return CommandLine.Bad;
            }

            told.Add(feature);
        }

        var baseline = new Baseline { Origin = BaselineOrigin.Told, Made = surroundings.Time.GetUtcNow(), Note = Note, Features = told };
        return BaselineOutcome.Add(Target ?? BaselineFile.Beside(FeederFile), baseline, surroundings) ? CommandLine.Well : CommandLine.Bad;
    }

    private static BaselineFeature? Read(string text, out string? trouble)
    {
        var (name, numbers) = text.Split('=', 2) is [var before, var after] ? (before.Trim(), after.Split(',')) : (text, []);
        var known = BaselineReadings.Followed.Select(feature => feature.Name).ToList();
        trouble = !known.Contains(name) ? $"no feature of that name{(EditDistance.Nearest(name, known) is { } nearest ? $"; did you mean {nearest}?" : "")}" : null;
        if (trouble is not null)
        {
            return null;
        }

        if (numbers.Length == 2 && Number(numbers[0]) is { } mean && Number(numbers[1]) is { } spread and >= 0)
        {
            return new() { Name = name, Mean = mean, Spread = spread };
        }

        trouble = $"mean and spread were expected, as in {name}=1.72,0.01, with the spread at or above 0";
        return null;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
}
