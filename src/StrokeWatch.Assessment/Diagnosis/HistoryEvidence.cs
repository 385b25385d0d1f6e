using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>Picks out of a history what shows the healthy machine and what the machine of now.</summary>
public static class HistoryEvidence
{
    /// <summary>The fewest captures that tell healthy from not.</summary>
    public const int FewestHealthy = 3;

    private const double HealthyShare = 0.35;
    private const int Present = 2;

    /// <summary>Gives the evidence; null where there are too few captures for both.</summary>
    /// <param name="points">The captures in order of date; without a baseline the first third, three at least, are taken for healthy.</param>
    public static Evidence? Of(IReadOnlyList<HistoryPoint> points)
    {
        var healthy = Math.Max(FewestHealthy, (int)(HealthyShare * points.Count));
        var now = Math.Min(Present, points.Count - healthy);
        return now < 1 ? null : Evidence.Of([.. points.Take(healthy).Select(point => point.Features)], [.. points.TakeLast(now).Select(point => point.Features)]);
    }
}
