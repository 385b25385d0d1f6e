using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>A number by which a cause shows itself.</summary>
/// <param name="Id">Its name, which never changes.</param>
/// <param name="Words">What it is, for a person who looks after the machine.</param>
/// <param name="Spread">How far healthy captures of one machine usually differ, as a standard deviation (common practice, no source).</param>
/// <param name="Measure">How to measure it where it is missing.</param>
/// <param name="Of">Reads it; null where a capture does not tell it.</param>
/// <param name="Show">Writes a healthy value and the present one.</param>
public sealed record Symptom(
    string Id, string Words, double Spread, string Measure, Func<CaptureFeatures, double?> Of, Func<double, double, string> Show)
{
    /// <summary>Gets what healthy is, where that is no matter of the machine's own past (no clipped samples, the normal side of the tuning curve); null where it is.</summary>
    public double? Healthy { get; init; }

    /// <summary>Gets the full turn after which the number repeats; null where it does not.</summary>
    public double? Turn { get; init; }

    /// <summary>Gets whether it is the newest capture's value that a person reads, not the mean of those that show the machine as it is now: of a strike heard in the last of two, that mean would say half.</summary>
    public bool ByNewest { get; init; }

    /// <summary>Gives the difference of two values, by the shorter way where the number repeats.</summary>
    public double Apart(double value, double origin) => Turn is { } turn ? Math.IEEERemainder(value - origin, turn) : value - origin;
}
