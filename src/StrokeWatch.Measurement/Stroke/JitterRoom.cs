namespace StrokeWatch.Measurement.Stroke;

/// <summary>Room in which a window is looked at for jitter; made once, so that no window allocates.</summary>
/// <param name="longest">Most samples in a window.</param>
internal sealed class JitterRoom(int longest)
{
    private readonly double[] numbers = new double[4 * longest];

    /// <summary>Gets room for the slope at each sample.</summary>
    public Span<double> Slopes(int count) => numbers.AsSpan(0, count);

    /// <summary>Gets room for the residual at each sample.</summary>
    public Span<double> Residuals(int count) => numbers.AsSpan(longest, count);

    /// <summary>Gets room for the cosine of the phase at each sample.</summary>
    public Span<double> Cos(int count) => numbers.AsSpan(2 * longest, count);

    /// <summary>Gets room for the sine of the phase at each sample.</summary>
    public Span<double> Sin(int count) => numbers.AsSpan(3 * longest, count);
}
