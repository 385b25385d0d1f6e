namespace StrokeWatch.Assessment.Baselines;

/// <summary>What a healthy machine is: each of its features with mean and spread; one version of it, never changed once made.</summary>
public sealed record Baseline
{
    /// <summary>Gets the version, from 1; <see cref="BaselineHistory.Add"/> numbers it.</summary>
    public int Version { get; init; }

    /// <summary>Gets how it came to be.</summary>
    public required BaselineOrigin Origin { get; init; }

    /// <summary>Gets when it was made.</summary>
    public required DateTimeOffset Made { get; init; }

    /// <summary>Gets why it was made, in a person's words; null where none were given.</summary>
    public string? Note { get; init; }

    /// <summary>Gets the features, each name once.</summary>
    public required IReadOnlyList<BaselineFeature> Features { get; init; }

    /// <summary>Finds a feature by its name; null where the baseline does not hold it.</summary>
    public BaselineFeature? Find(string name) => Features.FirstOrDefault(feature => feature.Name == name);

    /// <summary>Says in one line what is wrong with it; null where nothing is.</summary>
    internal string? Fault()
    {
        if (Features.Count == 0)
        {
            return "it holds no feature";
        }

        var twice = Features.GroupBy(feature => feature.Name).FirstOrDefault(group => group.Count() > 1)?.Key;
        return twice is not null
            ? $"{twice} is there twice"
            : Features.Select(feature => feature.Fault()).FirstOrDefault(fault => fault is not null)
                ?? (Origin == BaselineOrigin.Learned && Features.FirstOrDefault(feature => feature.Count is null) is { } uncounted
                    ? $"`count` of {uncounted.Name} is missing; a learned baseline says how many readings it rests on"
                    : null);
    }
}
