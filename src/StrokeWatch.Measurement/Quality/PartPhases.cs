using System.Numerics;

namespace StrokeWatch.Measurement.Quality;

/// <summary>
/// Looks at the fundamental's phase in the parts of a window: a bend is a drive that speeds up or slows down, and is corrected; what is left beside a bend
/// is a jump of the sensor's clock, and spoils the window.
/// </summary>
internal sealed class PartPhases
{
    private const double BrokenRadians = 0.12;
    private const double LockedSmear = 1e-3;
    private const double NoiseMultiple = 6;

    /// <summary>Gets the factor from the fitted amplitude to the true one; 1 where the phase does not bend.</summary>
    public double Smear { get; private set; } = 1;

    /// <summary>Gets whether the phase jumps.</summary>
    public bool Broken { get; private set; }

    /// <summary>Takes the parts of a window.</summary>
    /// <param name="parts">The fundamental in each part, complex, in any unit of length.</param>
    /// <param name="noise">Standard deviation of each part by noise, in the same unit.</param>
    /// <param name="free">True where the drive may change its speed; one locked to the mains bends only by the wander of the mains.</param>
    public void Take(ReadOnlySpan<Complex> parts, double noise, bool free)
    {
        Complex mean = 0;
        var size = 0.0;
        foreach (var part in parts)
        {
            mean += part;
            size += part.Magnitude;
        }

        (Smear, Broken) = (1, false);
        if (mean.Magnitude < 0.2 * size || size == 0)
        {
            return;
        }

        // Straight line and parabola are orthogonal on equal parts about the middle.
        var direction = mean / mean.Magnitude;
        var half = 0.5 * (parts.Length - 1);
        double slope = 0, bend = 0, slopeNorm = 0, bendNorm = 0, square = 0;
        for (var i = 0; i < parts.Length; i++)
        {
            var x = i - half;
            slopeNorm += x * x;
            square += x * x / parts.Length;
        }

        Span<double> phase = stackalloc double[parts.Length];
        var average = 0.0;
        for (var i = 0; i < parts.Length; i++)
        {
            phase[i] = (parts[i] / direction).Phase;
            average += phase[i] / parts.Length;
        }

        for (var i = 0; i < parts.Length; i++)
        {
            var x = i - half;
            slope += x * phase[i] / slopeNorm;
            bend += (x * x - square) * phase[i];
            bendNorm += (x * x - square) * (x * x - square);
        }

        bend /= bendNorm;
        var worst = 0.0;
        for (var i = 0; i < parts.Length; i++)
        {
            var x = i - half;
            worst = Math.Max(worst, Math.Abs(phase[i] - average - slope * x - bend * (x * x - square)));
        }

        var phaseNoise = noise * parts.Length / size;
        var smear = size / mean.Magnitude;
        Broken = worst > BrokenRadians + NoiseMultiple * phaseNoise;
        if (!free)
        {
            // The mains does not bend within half a second: what smears is a step of the sensor's clock.
            Broken |= smear - 1 > LockedSmear + phaseNoise * phaseNoise;
        }
        else if (Math.Abs(bend) * Math.Sqrt(bendNorm) > NoiseMultiple * phaseNoise)
        {
            Smear = smear;
        }
    }
}
