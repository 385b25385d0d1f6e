using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Configuration;

/// <summary>Features of a baseline as a person tells them: name, mean and spread.</summary>
internal static class ToldFeatures
{
    /// <summary>Reads texts such as <c>natural_frequency_hz=66.2,0.1</c>; null where one will not do, and the trouble then says which and why.</summary>
    public static IReadOnlyList<BaselineFeature>? Read(IEnumerable<string> texts, out string? trouble)
    {
        var told = new List<BaselineFeature>();
        foreach (var text in texts)
        {
            if (One(text, out trouble) is not { } feature || told.Any(other => other.Name == feature.Name))
            {
                trouble = $"{text}: {trouble ?? "is there twice; give each feature once"}";
                return null;
            }

            told.Add(feature);
        }

        trouble = null;
        return told;
    }

    private static BaselineFeature? One(string text, out string? trouble)
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
