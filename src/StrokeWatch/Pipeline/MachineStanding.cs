using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Assessment.Watching;

namespace StrokeWatch.Pipeline;

/// <summary>What is known of a machine over weeks at one instant.</summary>
/// <param name="Progress">What is known, in a line.</param>
/// <param name="Finding">What has become of the machine; null where nothing has.</param>
/// <param name="Baseline">What healthy is; null while it is not known.</param>
internal sealed record MachineStanding(string Progress, WatchFinding? Finding, Baseline? Baseline)
{
    /// <summary>Takes it from what watches the machine; belongs to the thread that does.</summary>
    public static MachineStanding Of(MachineWatch watch) => new(watch.Progress(), watch.Standing, watch.Baseline);
}
