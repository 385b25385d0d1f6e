using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Stretches;

namespace StrokeWatch.Configuration;

/// <summary>What the daemon learns and follows over weeks: the table [history] of its configuration.</summary>
internal sealed record WatchHistory
{
    /// <summary>Gets how running is cut into stretches.</summary>
    public StretchSettings Stretches { get; init; } = new();

    /// <summary>Gets how a baseline is learned where there is none; null where none is to be learned.</summary>
    public BaselineSettings? Learning { get; init; } = new();

    /// <summary>Gets the instant before which nothing is learned and no baseline counts, as after new springs; null where there is none.</summary>
    public DateTimeOffset? LearnSince { get; init; }

    /// <summary>Gets the file of baselines; null where none is kept.</summary>
    public string? BaselinePath { get; init; }
}
