namespace StrokeWatch.Measurement.Stroke;

/// <summary>What unsteady sampling does to an amplitude.</summary>
public static class TimingJitter
{
    /// <summary>Gives the mean share of a sine's amplitude that a fit finds under Gaussian jitter: exp(−(2πfσ)²/2).</summary>
    /// <remarks>Source: the characteristic function of the normal distribution; Corrêa Alegria and Cruz Serra on jitter in sine fitting (abstract).</remarks>
    /// <param name="frequencyHz">Frequency in Hz.</param>
    /// <param name="jitterSeconds">Standard deviation of the sampling instants in seconds.</param>
    public static double Share(double frequencyHz, double jitterSeconds)
    {
        var phase = 2 * Math.PI * frequencyHz * jitterSeconds;
        return Math.Exp(-0.5 * phase * phase);
    }
}
