using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Makes the uncertainty budget of a stroke read over many windows; all lengths in metres.</summary>
public static class StrokeBudget
{
    /// <summary>Name of what noise and other vibration contribute.</summary>
    public const string Noise = "noise";

    /// <summary>Name of what the windows scatter beyond their noise.</summary>
    public const string Repeatability = "repeatability";

    /// <summary>Name of what the last digit written contributes.</summary>
    public const string Resolution = "resolution";

    /// <summary>The coverage factor of every uncertainty that the program states.</summary>
    public const double CoverageFactor = 2;

    /// <summary>The median of n Gaussian values has this many times the deviation of their mean, for large n: √(π/2).</summary>
    private const double MedianLoss = 1.2533;

    /// <summary>Half of the last digit in which a stroke is written: a millionth of a millimetre.</summary>
    private const double HalfDigit = 0.5e-9;

    /// <summary>Gives the standard uncertainty of a median over windows, from the noise of one window and the windows' scatter, which holds the noise already.</summary>
    /// <param name="noise">Standard uncertainty of one window by noise.</param>
    /// <param name="scatter">Standard deviation of the windows; 0 where there is one window.</param>
    /// <param name="windows">Number of windows.</param>
    public static double OfMedian(double noise, double scatter, int windows) => MedianLoss / Math.Sqrt(windows) * Math.Max(noise, scatter);

    /// <summary>Makes the budget of the median over windows.</summary>
    /// <param name="stroke">The stroke.</param>
    /// <param name="contributions">What the signal cannot tell.</param>
    /// <param name="noise">Standard uncertainty of one window by the fit's own residual.</param>
    /// <param name="scatter">Standard deviation of the windows' strokes; 0 where there is one window.</param>
    /// <param name="windows">Number of windows.</param>
    public static UncertaintyBudget Of(double stroke, StrokeContributions contributions, double noise, double scatter, int windows)
    {
        var mean = MedianLoss / Math.Sqrt(windows);

        // The scatter holds the noise already: what goes beyond it is the machine's.
        var beyond = Math.Sqrt(Math.Max(0, scatter * scatter - noise * noise));
        var count = windows == 1 ? "1 window" : $"{windows} windows";
        return new(
        [
            new(Noise, mean * noise, basis: $"residual of the fit, rounding of the samples included; median of {count}"),
            new(Repeatability, mean * beyond, degreesOfFreedom: Math.Max(1, windows - 1), basis: windows == 1 ? "one window shows none" : $"scatter of {count} beyond their noise"),
            .. contributions.Items.Select(item => new UncertaintyComponent(item.Name, item.Relative, stroke, item.DegreesOfFreedom, item.Basis)),
            new(Resolution, Distributions.Rectangular(HalfDigit), basis: "last digit written, rectangular"),
        ]);
    }
}
