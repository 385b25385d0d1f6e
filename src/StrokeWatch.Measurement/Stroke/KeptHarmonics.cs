namespace StrokeWatch.Measurement.Stroke;

/// <summary>A copy of a window's harmonics, for what is worked out after the next window has been fitted. Storage grows to what is needed and stays.</summary>
internal sealed class KeptHarmonics : IWindowHarmonics
{
    private double[] coefficients = [];
    private (double Cosine, double Sine)[] parts = [];

    /// <inheritdoc/>
    public int Axes { get; private set; }

    /// <inheritdoc/>
    public int Orders { get; private set; }

    /// <inheritdoc/>
    public double Frequency { get; private set; }

    /// <inheritdoc/>
    public double MeasuredFrequency { get; private set; }

    /// <inheritdoc/>
    public int Count { get; private set; }

    /// <inheritdoc/>
    public double SquaredResiduals { get; private set; }

    /// <inheritdoc/>
    public double ResidualDeviation { get; private set; }

    /// <inheritdoc/>
    public double CoefficientShare { get; private set; }

    private int Width => Orders + 1;

    /// <summary>Copies a window's harmonics.</summary>
    public void Keep(IWindowHarmonics fit)
    {
        (Axes, Orders, Count) = (fit.Axes, fit.Orders, fit.Count);
        (Frequency, MeasuredFrequency) = (fit.Frequency, fit.MeasuredFrequency);
        (SquaredResiduals, ResidualDeviation, CoefficientShare) = (fit.SquaredResiduals, fit.ResidualDeviation, fit.CoefficientShare);
        if (coefficients.Length < 2 * Axes * Width)
        {
            coefficients = new double[2 * Axes * Width];
        }

        if (parts.Length < Axes * HarmonicFit.Parts)
        {
            parts = new (double, double)[Axes * HarmonicFit.Parts];
        }

        for (var a = 0; a < Axes; a++)
        {
            fit.Cosine(a)[..Width].CopyTo(coefficients.AsSpan(2 * a * Width));
            fit.Sine(a)[..Width].CopyTo(coefficients.AsSpan(((2 * a) + 1) * Width));
            for (var part = 0; part < HarmonicFit.Parts; part++)
            {
                parts[(a * HarmonicFit.Parts) + part] = fit.Part(a, part);
            }
        }
    }

    /// <inheritdoc/>
    public ReadOnlySpan<double> Cosine(int axis) => coefficients.AsSpan(2 * axis * Width, Width);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Sine(int axis) => coefficients.AsSpan(((2 * axis) + 1) * Width, Width);

    /// <inheritdoc/>
    public (double Cosine, double Sine) Part(int axis, int part) => parts[(axis * HarmonicFit.Parts) + part];
}
