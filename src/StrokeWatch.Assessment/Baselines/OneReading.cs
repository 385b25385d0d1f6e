namespace StrokeWatch.Assessment.Baselines;

/// <summary>A baseline from one good reading, as after tuning: told, with the spreads that are usual.</summary>
public static class OneReading
{
    /// <summary>How far readings of one healthy machine usually differ, relative standard deviation (common practice, no source).</summary>
    private static readonly IReadOnlyDictionary<string, double> Usual = new Dictionary<string, double>(StringComparer.Ordinal)
    {
        ["stroke_mm"] = 0.02,
        ["natural_frequency_hz"] = 0.004,
        ["tuning_ratio"] = 0.004,
        ["damping_ratio"] = 0.06,
    };

    /// <summary>Gives the features whose usual spread is known.</summary>
    /// <param name="readings">The reading; values that are no finite number above 0 are left out.</param>
    public static IReadOnlyList<BaselineFeature> Features(IEnumerable<FeatureReading> readings) =>
    [
        .. readings.Where(reading => reading.Value > 0 && double.IsFinite(reading.Value) && Usual.ContainsKey(reading.Name))
            .Select(reading => new BaselineFeature { Name = reading.Name, Mean = reading.Value, Spread = Usual[reading.Name] * reading.Value, OwnUncertainty = reading.OwnUncertainty }),
    ];
}
