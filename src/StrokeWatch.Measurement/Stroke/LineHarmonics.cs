namespace StrokeWatch.Measurement.Stroke;

/// <summary>The harmonics of acceleration along a line of action, in m/s², and that line; index 0 is the constant.</summary>
/// <param name="cosine">Cosine coefficients.</param>
/// <param name="sine">Sine coefficients.</param>
/// <param name="direction">The line as a unit vector in the sensor's axes.</param>
internal readonly ref struct LineHarmonics(ReadOnlySpan<double> cosine, ReadOnlySpan<double> sine, ReadOnlySpan<double> direction)
{
    /// <summary>Gets the cosine coefficients.</summary>
    public ReadOnlySpan<double> LineCosine { get; } = cosine;

    /// <summary>Gets the sine coefficients.</summary>
    public ReadOnlySpan<double> LineSine { get; } = sine;

    /// <summary>Gets the line as a unit vector in the sensor's axes.</summary>
    public ReadOnlySpan<double> Direction { get; } = direction;
}
