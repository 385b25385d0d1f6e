using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>A line made by a formula, and what the meter's own fit makes of it.</summary>
internal static class Fitted
{
    /// <summary>Samples a signal about the middle of a window; time in samples.</summary>
    public static double[] Line(int count, Func<double, double> signal) => [.. Enumerable.Range(0, count).Select(n => signal(n - (0.5 * (count - 1))))];

    /// <summary>Fits a line at a drive in cycles a sample.</summary>
    public static HarmonicFit Fit(double[] line, double frequency, int orders)
    {
        var fit = new HarmonicFit(1, orders);
        Assert.True(fit.Fit([line], 0, line.Length, frequency, orders, follow: false));
        return fit;
    }

    /// <summary>Gives the harmonics along the line.</summary>
    public static LineHarmonics Path(HarmonicFit fit) => new(fit.Cosine(0), fit.Sine(0), new double[] { 1 });
}
