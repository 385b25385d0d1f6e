namespace StrokeWatch.Measurement.CoastDown;

/// <summary>
/// Fits a decaying sine and a constant, A e^(−δt) cos ω_d t + B e^(−δt) sin ω_d t + C, by least squares (variable projection, Gauss-Newton on δ and ω_d).
/// </summary>
/// <remarks>Damping ratio ζ = δ/√(δ² + ω_d²), the logarithmic decrement's relation; uncertainty from the fit's own residual (GUM, type A).</remarks>
internal static class DecayFit
{
    private const int MostIterations = 40;
    private const int LeastCycles = 4;

    /// <summary>Fits a decay; null where the samples do not show one.</summary>
    /// <param name="samples">Samples after the drive was switched off, any unit.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <param name="lowHz">Lowest frequency looked at, in Hz.</param>
    /// <param name="highHz">Highest frequency looked at, in Hz.</param>
    /// <param name="startSeconds">Time of the first sample, copied to the reading.</param>
    public static DecayReading? Fit(ReadOnlySpan<double> samples, double rateHz, double lowHz, double highHz, double startSeconds)
    {
        if (samples.Length < LeastCycles * rateHz / highHz)
        {
            return null;
        }

        var (omega, decay) = Start(samples, 2 * Math.PI * lowHz / rateHz, 2 * Math.PI * highHz / rateHz);
        Span<double> system = stackalloc double[25];
        Span<double> right = stackalloc double[5];
        Span<double> linear = stackalloc double[3];
        var ssr = Linear(samples, omega, decay, linear);
        var damping = 1e-3;
        for (var i = 0; i < MostIterations; i++)
        {
            Normal(samples, omega, decay, linear, system, right);
            for (var k = 0; k < 5; k++)
            {
                system[k * 5 + k] *= 1 + damping;
            }

            if (!Gauss(system, right))
            {
                return null;
            }

            var (nextDecay, nextOmega) = (decay + right[3], omega + right[4]);
            var trial = nextOmega > 0 && nextOmega < Math.PI && nextDecay > -0.05 * nextOmega
                ? Linear(samples, nextOmega, nextDecay, linear)
                : double.PositiveInfinity;
            if (trial <= ssr)
            {
                var done = Math.Abs(right[3]) + Math.Abs(right[4]) < 1e-9 * omega;
                (omega, decay, ssr, damping) = (nextOmega, nextDecay, trial, damping * 0.2);
                if (done)
                {
                    break;
                }
            }
            else
            {
                damping = Math.Max(damping, 1e-6) * 8;
                Linear(samples, omega, decay, linear);
                if (damping > 1e8)
                {
                    break;
                }
            }
        }

        return Reading(samples, rateHz, startSeconds, omega, decay, ssr, linear, system, right);
    }

    /// <summary>Looks over the range at a fraction of the fit's reach and takes the best.</summary>
    private static (double Omega, double Decay) Start(ReadOnlySpan<double> samples, double low, double high)
    {
        Span<double> linear = stackalloc double[3];
        var steps = (int)Math.Ceiling((high - low) * samples.Length / 1.0);
        var best = (Ssr: double.PositiveInfinity, Omega: low, Decay: 0.02 * low);
        for (var i = 0; i <= steps; i++)
        {
            var omega = low + (high - low) * i / Math.Max(1, steps);
            foreach (var ratio in (ReadOnlySpan<double>)[0.01, 0.03])
            {
                var ssr = Linear(samples, omega, ratio * omega, linear);
                best = ssr < best.Ssr ? (ssr, omega, ratio * omega) : best;
            }
        }

        return (best.Omega, best.Decay);
    }

    private static DecayReading? Reading(
        ReadOnlySpan<double> samples, double rateHz, double startSeconds, double omega, double decay, double ssr,
        Span<double> linear, Span<double> system, Span<double> right)
    {
        var amplitude = Math.Sqrt(linear[0] * linear[0] + linear[1] * linear[1]);
        var deviation = Math.Sqrt(ssr / Math.Max(1, samples.Length - 5));
        var ratio = decay / Math.Sqrt(decay * decay + omega * omega);
        if (!(ratio > 1e-4) || ratio > 0.3 || amplitude < 4 * deviation)
        {
            return null;
        }

        Normal(samples, omega, decay, linear, system, right);
        right.Clear();
        right[4] = 1;
        if (!Gauss(system, right) || right[4] <= 0)
        {
            return null;
        }

        var hertz = rateHz / (2 * Math.PI);
        return new(startSeconds, omega * hertz, ratio, 2 * deviation * Math.Sqrt(right[4]) * hertz);
    }

    /// <summary>Fits A, B and C for given ω_d and δ (a sample); returns the sum of squared residuals.</summary>
    private static double Linear(ReadOnlySpan<double> samples, double omega, double decay, Span<double> linear)
    {
        Span<double> g = stackalloc double[9];
        Span<double> r = stackalloc double[3];
        var squares = 0.0;
        for (var n = 0; n < samples.Length; n++)
        {
            var (sin, cos) = Math.SinCos(omega * n);
            var envelope = Math.Exp(-decay * n);
            double a = envelope * cos, b = envelope * sin, y = samples[n];
            g[0] += a * a;
            g[1] += a * b;
            g[2] += a;
            g[4] += b * b;
            g[5] += b;
            r[0] += a * y;
            r[1] += b * y;
            r[2] += y;
            squares += y * y;
        }

        (g[3], g[6], g[7], g[8]) = (g[1], g[2], g[5], samples.Length);
        r.CopyTo(linear);
        Span<double> copy = stackalloc double[9];
        g.CopyTo(copy);
        return Gauss(copy, linear) ? squares - (linear[0] * r[0] + linear[1] * r[1] + linear[2] * r[2]) : double.PositiveInfinity;
    }

    /// <summary>Builds the normal equations for steps of A, B, C, δ, ω_d.</summary>
    private static void Normal(
        ReadOnlySpan<double> samples, double omega, double decay, ReadOnlySpan<double> linear, Span<double> system, Span<double> right)
    {
        system.Clear();
        right.Clear();
        Span<double> row = stackalloc double[5];
        for (var n = 0; n < samples.Length; n++)
        {
            var (sin, cos) = Math.SinCos(omega * n);
            var envelope = Math.Exp(-decay * n);
            var value = envelope * (linear[0] * cos + linear[1] * sin);
            row[0] = envelope * cos;
            row[1] = envelope * sin;
            row[2] = 1;
            row[3] = -n * value;
            row[4] = n * envelope * (linear[1] * cos - linear[0] * sin);
            var residual = samples[n] - value - linear[2];
            for (var i = 0; i < 5; i++)
            {
                right[i] += row[i] * residual;
                for (var j = 0; j < 5; j++)
                {
                    system[i * 5 + j] += row[i] * row[j];
                }
            }
        }
    }

    private static bool Gauss(Span<double> matrix, Span<double> right)
    {
        var size = right.Length;
        for (var k = 0; k < size; k++)
        {
            var pivot = matrix[k * size + k];
            if (!(Math.Abs(pivot) > 0))
            {
                return false;
            }

            for (var row = k + 1; row < size; row++)
            {
                var factor = matrix[row * size + k] / pivot;
                for (var column = k; column < size; column++)
                {
                    matrix[row * size + column] -= factor * matrix[k * size + column];
                }

                right[row] -= factor * right[k];
            }
        }

        for (var row = size - 1; row >= 0; row--)
        {
            for (var column = row + 1; column < size; column++)
            {
                right[row] -= matrix[row * size + column] * right[column];
            }

            right[row] /= matrix[row * size + row];
        }

        return true;
    }
}
