using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>A window's harmonics as a slower sensor's fit would give them: see <see cref="SlowerLine"/>. Used again and again.</summary>
internal sealed class SlowerHarmonics : IWindowHarmonics
{
    private IWindowHarmonics fit = null!;
    private int every = 1;

    /// <inheritdoc/>
    public int Axes => fit.Axes;

    /// <inheritdoc/>
    public int Orders => Math.Min(fit.Orders, (int)(Windows.WindowAnalysis.HighestShare / Frequency));

    /// <inheritdoc/>
    public double Frequency => fit.Frequency * every;

    /// <inheritdoc/>
    public double MeasuredFrequency => fit.MeasuredFrequency * every;

    /// <inheritdoc/>
    public int Count => fit.Count / every;

    /// <inheritdoc/>
    public double SquaredResiduals => fit.SquaredResiduals / (every * every);

    /// <summary>Gets the standard deviation of the residual: what noise of the same density leaves in the narrower band.</summary>
    public double ResidualDeviation => fit.ResidualDeviation / Math.Sqrt(every);

    /// <inheritdoc/>
    public double CoefficientShare => fit.CoefficientShare * every;

    /// <summary>Gives the harmonics of a sensor at a rate: as they are, or slowed down, and the rate then.</summary>
    public (IWindowHarmonics Fit, double RateHz) Of(IWindowHarmonics window, double rateHz)
    {
        (fit, every) = (window, SlowerLine.Every(rateHz));
        return every == 1 ? (window, rateHz) : (this, rateHz / every);
    }

    /// <inheritdoc/>
    public ReadOnlySpan<double> Cosine(int axis) => fit.Cosine(axis)[..(Orders + 1)];

    /// <inheritdoc/>
    public ReadOnlySpan<double> Sine(int axis) => fit.Sine(axis)[..(Orders + 1)];

    /// <inheritdoc/>
    public (double Cosine, double Sine) Part(int axis, int part) => fit.Part(axis, part);
}
