using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Session;

/// <summary>What the trials say; or why nothing can be worked out of them.</summary>
/// <param name="Advice">The advice; null where there is none.</param>
/// <param name="Posterior">What it rests on; null where there is no advice.</param>
/// <param name="Trouble">Why there is no advice.</param>
internal sealed record SessionAdvice(TuningAdvice? Advice, TuningPosterior? Posterior, string? Trouble);
