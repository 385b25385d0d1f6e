using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Several captures of one feeder in order of date; what rules over time read.</summary>
public sealed record HistoryReport
{
    /// <summary>Makes the history; the points are put in order of date, ties by name.</summary>
    /// <param name="feeder">The feeder.</param>
    /// <param name="points">Its captures.</param>
    public HistoryReport(FeederDescription feeder, IEnumerable<HistoryPoint> points)
    {
        Feeder = feeder;
        Points = [.. points.OrderBy(point => point.Recorded).ThenBy(point => point.Capture, StringComparer.Ordinal)];
    }

    /// <summary>Gets the feeder.</summary>
    public FeederDescription Feeder { get; }

    /// <summary>Gets the captures in order of date.</summary>
    public IReadOnlyList<HistoryPoint> Points { get; }

    /// <summary>Gets what guided checks found about the time of the newest capture; empty where nobody looked.</summary>
    public IReadOnlyList<CheckFound> Found { get; init; } = [];

    /// <summary>Gives the dated values of a feature, those captures left out in which it was not measured.</summary>
    public IReadOnlyList<(DateTimeOffset Recorded, double Value)> Series(Feature feature) =>
        [.. Points.Select(point => (point.Recorded, Value: feature.Of(point.Features))).Where(point => point.Value is not null).Select(point => (point.Recorded, point.Value!.Value))];
}
