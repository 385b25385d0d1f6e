namespace StrokeWatch.Measurement.Drive;

/// <summary>A fitted A cos 2πνn + B sin 2πνn + C, n counting samples from 0.</summary>
/// <param name="Cosine">A, in the samples' unit.</param>
/// <param name="Sine">B, in the samples' unit.</param>
/// <param name="Constant">C, in the samples' unit.</param>
/// <param name="CyclesPerSample">ν.</param>
/// <param name="SquaredResiduals">Sum of the squared residuals.</param>
/// <param name="Samples">Number of samples fitted.</param>
/// <param name="Iterations">Steps taken for the frequency, 0 where it was known.</param>
public readonly record struct SineFitResult(
    double Cosine, double Sine, double Constant, double CyclesPerSample, double SquaredResiduals, int Samples, int Iterations)
{
    /// <summary>Gets the amplitude, zero to peak.</summary>
    public double Amplitude => Math.Sqrt(Cosine * Cosine + Sine * Sine);

    /// <summary>Gets θ in radians of Amplitude · cos(2πνn + θ).</summary>
    public double Phase => Math.Atan2(-Sine, Cosine);
}
