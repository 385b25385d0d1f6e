using System.Globalization;

namespace StrokeWatch.Assessment.Baselines;

/// <summary>Learns what a healthy machine is from summaries of captures or hours; refuses those of a feeder with an alarm; memory does not grow.</summary>
/// <remarks>
/// It ends when every feature that was seen has enough readings over the shortest time, or, once the longest time has passed, when those that are required have:
/// features that come seldom are then kept with what there is, and with fewer than the fewest not at all.
/// </remarks>
public sealed class BaselineLearner(BaselineSettings settings)
{
    private const int MostFeatures = 64;

    private readonly Dictionary<string, LearnedFeature> features = new(StringComparer.Ordinal);
    private DateTimeOffset? began;
    private DateTimeOffset latest = DateTimeOffset.MinValue;

    /// <summary>Gets how many summaries were taken.</summary>
    public long Taken { get; private set; }

    /// <summary>Gets how many summaries were refused because the feeder had an alarm.</summary>
    public long RefusedForAlarms { get; private set; }

    /// <summary>Gets the baseline; null until enough is known.</summary>
    public Baseline? Result { get; private set; }

    /// <summary>Offers a summary.</summary>
    /// <param name="at">The time it ends.</param>
    /// <param name="readings">Its features; those that are not numbers are passed over.</param>
    /// <param name="alarm">Whether the feeder had any alarm in it.</param>
    public LearningOutcome Offer(DateTimeOffset at, IReadOnlyList<FeatureReading> readings, bool alarm)
    {
        if (Result is not null)
        {
            return LearningOutcome.Complete;
        }

        if (at <= latest)
        {
            return LearningOutcome.NotLater;
        }

        if (alarm)
        {
            RefusedForAlarms++;
            return LearningOutcome.Alarm;
        }

        var any = false;
        foreach (var reading in readings)
        {
            any |= TryAdd(at, reading);
        }

        if (!any)
        {
            return LearningOutcome.Nothing;
        }

        latest = at;
        began ??= at;
        Taken++;
        Result = Complete() ? Sum() : null;
        return LearningOutcome.Taken;
    }

    /// <summary>Says how far learning is, and what it waits for.</summary>
    public string Progress()
    {
        if (Result is { } done)
        {
            return string.Create(CultureInfo.InvariantCulture, $"learned: {done.Features.Count} features from {Taken} summaries");
        }

        var days = Math.Floor(10 * (latest - (began ?? latest)).TotalDays) / 10;
        var waiting = settings.Required.Concat(features.Keys.Order(StringComparer.Ordinal)).Distinct()
            .Select(name => (Name: name, Count: features.TryGetValue(name, out var feature) ? feature.Count : 0))
            .Where(feature => feature.Count < settings.Enough)
            .Select(feature => string.Create(CultureInfo.InvariantCulture, $"{feature.Name} {feature.Count} of {settings.Enough} readings"))
            .ToList();
        var alarms = RefusedForAlarms > 0 ? string.Create(CultureInfo.InvariantCulture, $"; {RefusedForAlarms} summaries left out because of alarms") : "";
        return string.Create(CultureInfo.InvariantCulture, $"learning: {days:0.0} of at least {settings.Shortest.TotalDays:0.#} days")
            + (waiting.Count > 0 ? ", " + string.Join(", ", waiting) : "") + alarms;
    }

    private bool TryAdd(DateTimeOffset at, FeatureReading reading)
    {
        if (!double.IsFinite(reading.Value) || !(reading.OwnUncertainty >= 0 && double.IsFinite(reading.OwnUncertainty)))
        {
            return false;
        }

        if (!features.TryGetValue(reading.Name, out var feature))
        {
            if (features.Count == MostFeatures)
            {
                return false;
            }

            features.Add(reading.Name, feature = new(reading.Name));
        }

        feature.Add(at, reading.Value, reading.OwnUncertainty);
        return true;
    }

    private bool Complete()
    {
        bool Known(LearnedFeature feature) => feature.Count >= settings.Enough && feature.Span >= settings.Shortest;
        return settings.Required.All(name => features.TryGetValue(name, out var feature) && Known(feature))
            && (latest - began >= settings.Longest || features.Values.All(Known));
    }

    private Baseline Sum() => new()
    {
        Origin = BaselineOrigin.Learned,
        Made = latest,
        Features =
        [
            .. features.OrderBy(feature => feature.Key, StringComparer.Ordinal)
                .Where(feature => feature.Value.Count >= Math.Min(settings.Fewest, settings.Enough))
                .Select(feature => feature.Value.Sum()),
        ],
    };
}
