using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>A window's harmonics as a slower sensor's fit would give them: see <see cref="SlowerLine"/>. Used again and again; nothing is allocated a window.</summary>
internal sealed class SlowerHarmonics : IWindowHarmonics
{
    private const int Width = Windows.WindowAnalysis.MostOrders + 1;
    private double[] axes = [];
    private readonly double[] line = new double[2 * Width];
    private IWindowHarmonics fit = null!;
    private int every = 1;

    /// <inheritdoc/>
    public int Axes => fit.Axes;

    /// <inheritdoc/>
    public int Orders { get; private set; }

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

    /// <summary>Gives a window of a sensor at a rate as it is, or slowed down: its harmonics, those along the line, and the rate then.</summary>
    public IWindowHarmonics Of(IWindowHarmonics window, ref LineHarmonics path, ref double rateHz)
    {
        (fit, every) = (window, SlowerLine.Every(rateHz));
        if (every == 1)
        {
            return window;
        }

        Orders = Math.Min(Width - 1, Math.Min(fit.Orders, (int)(Windows.WindowAnalysis.HighestShare / Frequency)));
        if (axes.Length < 2 * Axes * Width)
        {
            axes = new double[2 * Axes * Width];
        }

        for (var axis = 0; axis < Axes; axis++)
        {
            Fill(fit.Cosine(axis), fit.Sine(axis), axes.AsSpan(2 * axis * Width, 2 * Width));
        }

        Fill(path.LineCosine, path.LineSine, line);
        path = new(line.AsSpan(0, Orders + 1), line.AsSpan(Width, Orders + 1), path.Direction);
        rateHz /= every;
        return this;
    }

    /// <inheritdoc/>
    public ReadOnlySpan<double> Cosine(int axis) => axes.AsSpan(2 * axis * Width, Orders + 1);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Sine(int axis) => axes.AsSpan(((2 * axis) + 1) * Width, Orders + 1);

    /// <inheritdoc/>
    public (double Cosine, double Sine) Part(int axis, int part) => fit.Part(axis, part);

    private void Fill(ReadOnlySpan<double> cosine, ReadOnlySpan<double> sine, Span<double> into)
    {
        for (var k = 0; k <= Orders; k++)
        {
            // c cos φ + s sin φ is the real part of (c − is) exp iφ.
            var corner = SlowerLine.Corner(k * fit.Frequency, every);
            into[k] = (cosine[k] * corner.Real) + (sine[k] * corner.Imaginary);
            into[Width + k] = (sine[k] * corner.Real) - (cosine[k] * corner.Imaginary);
        }
    }
}
