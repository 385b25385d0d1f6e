using System.Globalization;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Makes a contribution to the uncertainty, with its words, of what unsteady sampling did.</summary>
internal static class JitterWords
{
    /// <summary>Makes it.</summary>
    public static StrokeContribution Contribution(JitterReading jitter) => new(
        StrokeContributions.TimingJitter, jitter.Relative, double.PositiveInfinity,
        jitter.Seconds is { } seconds
            ? string.Create(CultureInfo.InvariantCulture, $"{1e6 * seconds:0.#} µs jitter, ± {2e6 * jitter.UncertaintySeconds:0.#} µs (k = 2), read from the residual; {100 * jitter.Correction:0.####} % given back")
            : "no jitter stands out of the residual; the most that may hide in it, rectangular");
}
